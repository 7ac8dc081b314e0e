import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '../../../tests/support/database.ts';
import { createWorker, enqueue, type JobPayload, type JobRequest, sealAudit } from '../src/jobs.ts';
import { rolePool } from '../src/role-pool.ts';
import { roles } from '../src/roles.ts';

const shop = '01900000-0000-7000-8000-000000000001';
const otherShop = '01900000-0000-7000-8000-000000000002';
let database: TestDatabase;
let app: pg.Client;
let queue: pg.Pool;

beforeAll(async () => {
  database = await createTestDatabase();
  app = new pg.Client({ connectionString: database.appUrl });
  await app.connect();
  queue = rolePool({ url: database.appUrl, role: roles.jobs, max: 1 });
});

afterAll(async () => {
  await app.end();
  await queue.end();
  await database.drop();
});

async function inShop<T>(
  shopId: string | null,
  work: () => Promise<T>,
  end = 'commit',
): Promise<T> {
  await app.query('begin');
  try {
    await app.query(`select set_config('role', 'fairlead_shop', true)`);
    if (shopId) await app.query(`select set_config('app.shop_id', $1, true)`, [shopId]);
    const result = await work();
    await app.query(end);
    return result;
  } catch (error) {
    await app.query('rollback');
    throw error;
  }
}

const ask = (job: JobRequest, shopId: string | null = shop, end = 'commit') =>
  inShop(shopId, () => enqueue(app, job), end);

const waiting = async (): Promise<number> =>
  Number((await queue.query('select count(*) from graphile_worker.jobs')).rows[0].count);

async function until(what: () => boolean, limit = 15_000): Promise<void> {
  const begun = Date.now();
  while (!what()) {
    if (Date.now() - begun > limit) throw new Error(`Not reached within ${limit} ms`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

describe('the shop and the queue', () => {
  it('the shop sees nothing of the queue and cannot reach past its door', async () => {
    await ask({ task: 'probe' });
    for (const sql of [
      'select * from graphile_worker.jobs',
      'select * from graphile_worker._private_jobs',
      `select graphile_worker.add_job('probe')`,
      'select * from jobs.known_task',
      `insert into jobs.known_task values ('sneaked')`,
    ]) {
      await expect(inShop(shop, () => app.query(sql))).rejects.toThrow(/permission denied/);
    }
    await queue.query('delete from graphile_worker._private_jobs');
  });

  it('any other role finds the door shut', async () => {
    for (const role of [roles.identity, roles.link]) {
      await app.query('begin');
      await app.query(`select set_config('role', $1, true)`, [role]);
      await expect(app.query(`select jobs.enqueue('probe')`)).rejects.toThrow(/permission denied/);
      await app.query('rollback');
    }
  });

  it('a job comes and goes with the transaction that asked for it', async () => {
    const before = await waiting();
    await ask({ task: 'probe' }, shop, 'rollback');
    expect(await waiting()).toBe(before);
    expect(await ask({ task: 'probe' })).toMatch(/^\d+$/);
    expect(await waiting()).toBe(before + 1);
    await queue.query('delete from graphile_worker._private_jobs');
  });

  it('refuses a job that nobody does, a payload that is no object, and a transaction without a shop', async () => {
    await expect(ask({ task: 'unheard-of' })).rejects.toThrow(
      /There is no job called "unheard-of"/,
    );
    await expect(
      inShop(shop, () => app.query(`select jobs.enqueue('probe', '[1]')`)),
    ).rejects.toThrow(/must be an object and is array/);
    await expect(ask({ task: 'probe' }, null)).rejects.toThrow(/outside a shop/);
    expect(await waiting()).toBe(0);
  });

  it('a job belongs to the shop of its transaction, whatever its payload says', async () => {
    await ask({ task: 'probe', payload: { shopId: otherShop, order: 7 } });
    const { rows } = await queue.query('select payload from graphile_worker._private_jobs');
    expect(rows).toEqual([{ payload: { shopId: shop, order: 7 } }]);
    await queue.query('delete from graphile_worker._private_jobs');
  });

  it('the same key replaces within a shop and never across shops', async () => {
    await ask({ task: 'probe', key: 'one', payload: { turn: 1 } });
    await ask({ task: 'probe', key: 'one', payload: { turn: 2 } });
    await ask({ task: 'probe', key: 'one', payload: { turn: 3 } }, otherShop);
    const { rows } = await queue.query(
      'select payload from graphile_worker._private_jobs order by id',
    );
    expect(rows.map((row) => row.payload)).toEqual([
      { shopId: shop, turn: 2 },
      { shopId: otherShop, turn: 3 },
    ]);
    await queue.query('delete from graphile_worker._private_jobs');
  });
});

describe('the worker', () => {
  it('does what was asked for, and tries again what failed', async () => {
    const done: JobPayload[] = [];
    const attempts: number[] = [];
    const worker = await createWorker({
      appUrl: database.appUrl,
      pollInterval: 200,
      tasks: {
        probe: async (payload) => {
          done.push(payload);
        },
        falter: async (_payload, attempt) => {
          attempts.push(attempt);
          if (attempt === 1) throw new Error('the first time it always fails');
        },
      },
    });
    try {
      await ask({ task: 'probe', payload: { order: 'QQ-1' } });
      await ask({ task: 'falter' });
      await until(() => done.length === 1 && attempts.length === 2);
      expect(done).toEqual([{ shopId: shop, order: 'QQ-1' }]);
      expect(attempts).toEqual([1, 2]);
    } finally {
      await worker.stop();
    }
    expect(await waiting()).toBe(0);
  });

  it('makes its own tasks known', async () => {
    await expect(ask({ task: 'brand-new' })).rejects.toThrow(/no job called/);
    const worker = await createWorker({
      appUrl: database.appUrl,
      tasks: { 'brand-new': async () => {} },
    });
    await worker.stop();
    await expect(ask({ task: 'brand-new' })).resolves.toMatch(/^\d+$/);
    await queue.query('delete from graphile_worker._private_jobs');
  });

  it('may seal the audit rows, and nothing else of the shop is open to it', async () => {
    expect(await sealAudit(queue)).toBe(0);
    await expect(queue.query('select * from public.audit')).rejects.toThrow(/permission denied/);
  });

  it('under any other role the queue looks empty: why the worker is its owner', async () => {
    await ask({ task: 'probe' });
    const admin = new pg.Client({ connectionString: database.adminUrl });
    await admin.connect();
    await admin.query(`
      begin;
      grant usage on schema graphile_worker to fairlead_link;
      grant select on graphile_worker._private_jobs to fairlead_link;
      set local role fairlead_link`);
    const { rows } = await admin.query(
      'select count(*)::int as seen from graphile_worker._private_jobs',
    );
    await admin.query('rollback');
    await admin.end();
    expect(rows).toEqual([{ seen: 0 }]);
    expect(await waiting()).toBe(1);
    await queue.query('delete from graphile_worker._private_jobs');
  });
});
