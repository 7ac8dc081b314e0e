import { globalId as gid } from '@fairlead/api/ids';
import { jobTasks } from '@fairlead/api/jobs';
import { createClient } from '@fairlead/database';
import { createWorker, shopsToFit } from '@fairlead/database/jobs';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { HOURS_MODEL_VERSION } from '@fairlead/labour';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask, type TestShop } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const ESTIMATE = `query ($t: ID!, $a: ID!, $m: ID) { estimateTask(taskId: $t, aircraftId: $a, mechanicId: $m) {
  ... on Refusal { code message } ... on Estimate { p50 p90 jobs because { kind sentence hours factor } modelVersion } } }`;
interface Estimated {
  code?: string;
  message?: string;
  p50: number;
  p90: number;
  jobs: number;
  modelVersion: string;
  because: { kind: string; sentence: string; hours: number | null; factor: number | null }[];
}
const estimated = async (shop: TestShop, taskId: string, personId?: string) => {
  const answer = await shop.as<{ estimateTask: Estimated }>('front_desk', ESTIMATE, {
    t: gid('Task', taskId),
    a: gid('Aircraft', shop.aircraftId),
    m: personId ? gid('Person', personId) : null,
  });
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.estimateTask;
};

const DRAFT = `mutation ($input: DraftQuoteInput!) { draftQuote(input: $input) { ... on Refusal { message } ... on Quote { id newest {
  hours { p10 p50 mean p80 p90 } lines { hours { p10 p50 mean p80 p90 } } modelNumber recomputed { same modelNumber sentence } } } } }`;
interface Drafted {
  draftQuote: {
    id: string;
    newest: {
      hours: Record<string, number>;
      lines: { hours: Record<string, number> }[];
      modelNumber: number | null;
      recomputed: { same: boolean; modelNumber: number; sentence: string } | null;
    };
  };
}
const drafted = async (shop: TestShop, taskIds: string[]) => {
  const answer = await shop.as<Drafted>('front_desk', DRAFT, {
    input: {
      aircraftId: gid('Aircraft', shop.aircraftId),
      contactId: gid('Contact', shop.contactId),
      tasks: taskIds.map((taskId) => ({ taskId: gid('Task', taskId) })),
    },
  });
  if (!answer.data?.draftQuote.newest) throw new Error(JSON.stringify(answer));
  return answer.data.draftQuote;
};

describe('hours by the fitted model', () => {
  test('without history a task takes its standard time, and one without either is refused with what is needed', async () => {
    const shop = await makeShop(api);
    const task = await makeTask(shop);
    const answer = await estimated(shop, task.id);
    expect(answer.p50).toBeCloseTo(2, 9);
    expect(answer.jobs).toBe(0);
    expect(answer.because[0]).toMatchObject({ kind: 'standard', hours: 2 });
    const bare = await makeTask(shop, { standardHours: null });
    expect(await estimated(shop, bare.id)).toMatchObject({
      code: 'NOT_ENOUGH_HISTORY',
      message: expect.stringContaining('give the task a standard time, or import a history'),
    });
  });

  test('the chain of reasons multiplies to the P50, with who does it and which aircraft', async () => {
    const shop = await makeShop(api);
    const task = await makeTask(shop, { key: 'swap-pump' });
    await addJobs(shop, 'swap-pump', [2.8, 3.1, 3.4, 2.9, 3.3], { mechanic: 'Test mechanic' });
    await addJobs(shop, 'swap-pump', [4.8, 5.1, 5.4, 4.9, 5.3], { mechanic: 'Test inspector' });
    await learn(shop);
    const quick = await estimated(shop, task.id, shop.people.mechanic.id);
    const anybody = await estimated(shop, task.id);
    expect(quick.p50).toBeLessThan(anybody.p50);
    expect(anybody.p50).toBeGreaterThan(2.5);
    expect(anybody.p50).toBeLessThan(5);
    expect(quick.jobs).toBe(10);
    for (const { p50, because } of [quick, anybody]) {
      const product = because.reduce(
        (sofar, { hours, factor }) => (factor ?? 1) * (hours ?? sofar),
        1,
      );
      expect(Math.abs(product / p50 - 1)).toBeLessThan(1e-9);
    }
    expect(quick.because.map(({ kind }) => kind)).toEqual(['standard', 'shop', 'mechanic']);
    expect(quick.because[2]?.sentence).toContain('for planning, not a mark');
  });

  test('an old quote gives its hours again to the last digit, after the shop has learned otherwise', async () => {
    const shop = await makeShop(api);
    const tasks = [await makeTask(shop, { key: 'a' }), await makeTask(shop, { key: 'b' })];
    await addJobs(shop, 'a', [1, 1.2, 1.1, 0.9]);
    await learn(shop);
    const ids = tasks.map(({ id }) => id);
    const before = await drafted(shop, ids);
    expect(before.newest.recomputed).toMatchObject({ same: true, modelNumber: 1 });
    expect(before.newest.modelNumber).toBe(1);
    await addJobs(shop, 'a', [6, 7, 8, 6.5]);
    await learn(shop);
    const after = await drafted(shop, ids);
    expect(after.newest.hours.p50).toBeGreaterThan((before.newest.hours.p50 ?? 0) * 1.2);
    expect(after.newest.recomputed).toMatchObject({ same: true, modelNumber: 2 });
    const again = await shop.as<{ node: Drafted['draftQuote'] }>(
      'front_desk',
      `query ($id: ID!) { node(id: $id) { ... on Quote { id newest { hours { p10 p50 mean p80 p90 } lines { hours { p50 } } recomputed { same modelNumber sentence } } } } }`,
      { id: before.id },
    );
    expect(again.data?.node.newest.hours).toEqual(before.newest.hours);
    expect(again.data?.node.newest.recomputed).toMatchObject({ same: true, modelNumber: 1 });
  });

  test('a model is never changed, and none that a quote names is put away', async () => {
    const shop = await makeShop(api);
    const task = await makeTask(shop);
    await drafted(shop, [task.id]);
    await expect(
      shop.inside((tx) => tx.hoursModel.updateMany({ data: { items: 7 } })),
    ).rejects.toThrow();
    await expect(shop.inside((tx) => tx.hoursModel.deleteMany())).rejects.toThrow();
  });
});

/** The newest of the shop's models, as another version of the program would have left it. */
const otherVersion = (shop: TestShop) =>
  shop.inside((tx) =>
    tx.hoursModel.create({
      data: {
        fittedAt: new Date(),
        version: 'log-mixed-0',
        content: new Uint8Array([1, 2, 3]),
        sha256: '0'.repeat(64),
        items: 5,
        censored: 0,
        odd: 0,
        residualSd: 0.3,
        settled: true,
        fitMs: 1,
      },
    }),
  );

/** A revision that another model had made: the same lines under the next number. */
const nextRevisionBy = (shop: TestShop, hoursModelId: string) =>
  shop.inside(async (tx) => {
    const made = await tx.quoteRevision.findFirstOrThrow({
      omit: { id: true, withFindings: true },
    });
    const lines = await tx.quoteLine.findMany({ omit: { id: true, revisionId: true } });
    const { id: revisionId } = await tx.quoteRevision.create({
      data: { ...made, revision: 2, hoursModelId },
    });
    await tx.quoteLine.createMany({
      data: lines.map((line) => ({
        ...line,
        revisionId,
        asked: line.asked as object,
        because: line.because as object,
      })),
    });
  });

describe('a model of another version of the program', () => {
  test('is no model in force: the answer is fitted for the request, kept with the quote, and the old quote says why it cannot be had again', async () => {
    const shop = await makeShop(api);
    const task = await makeTask(shop, { key: 'swap' });
    await addJobs(shop, 'swap', [4, 4.2, 3.9, 4.1, 4.4]);
    await learn(shop);
    const before = await drafted(shop, [task.id]);
    await nextRevisionBy(shop, (await otherVersion(shop)).id);
    // The newest of this version still stands.
    expect((await estimated(shop, task.id)).p50).toBeGreaterThan(3);

    const other = await makeShop(api);
    const same = await makeTask(other, { key: 'swap' });
    await addJobs(other, 'swap', [4, 4.2, 3.9, 4.1, 4.4]);
    await otherVersion(other);
    const p50 = (await estimated(shop, task.id)).p50;
    expect((await estimated(other, same.id)).p50 / p50).toBeCloseTo(1, 9);
    const kept = await drafted(other, [same.id]);
    expect(kept.newest.recomputed).toMatchObject({ same: true, modelNumber: 2 });

    const again = await shop.as<{ node: Drafted['draftQuote'] }>(
      'front_desk',
      'query ($id: ID!) { node(id: $id) { ... on Quote { newest { recomputed { same sentence } } } } }',
      { id: before.id },
    );
    expect(again.data?.node.newest.recomputed).toMatchObject({
      same: false,
      sentence: expect.stringContaining('made by log-mixed-0'),
    });
  });

  test('the worker finds such shops, and those that never had one', async () => {
    const [fitted, bare, idle] = [await makeShop(api), await makeShop(api), await makeShop(api)];
    for (const shop of [fitted, bare]) await addJobs(shop, 'x', [1, 2]);
    await learn(fitted);
    const pool = rolePool({ url: api.database.appUrl, role: roles.jobs, max: 1 });
    const shops = await shopsToFit(pool, HOURS_MODEL_VERSION);
    const another = await shopsToFit(pool, 'log-mixed-99');
    await pool.end();
    const ids = [fitted, bare, idle].map(({ shopId }) => shopId);
    expect(ids.map((id) => shops.includes(id))).toEqual([false, true, false]);
    expect(ids.map((id) => another.includes(id))).toEqual([true, true, false]);
  });
});

describe('learning in the background', () => {
  test('nothing new makes no new model', async () => {
    const shop = await makeShop(api);
    await addJobs(shop, 'x', [1, 2, 3]);
    const first = await learn(shop);
    expect(await learn(shop)).toBe(first);
    await addJobs(shop, 'x', [4]);
    expect(await learn(shop)).not.toBe(first);
    expect(await shop.inside((tx) => tx.hoursModel.count())).toBe(2);
  });

  test('a fit that somebody waits for is not put off by one that may wait', async () => {
    const shop = await makeShop(api);
    const { askRefit } = await import('@fairlead/api/hindsight/index');
    const now = new Date();
    await shop.inside(async (tx) => {
      await tx.refitRun.create({ data: { endedAt: now } });
      await askRefit(tx, now, { atOnce: true });
    });
    await shop.inside((tx) => askRefit(tx, now));
    const pool = rolePool({ url: api.database.appUrl, role: roles.jobs, max: 1 });
    const { rows } = await pool.query<{ run_at: Date }>(
      'select run_at from graphile_worker.jobs where key like $1',
      [`${shop.shopId}:refit_hours:%`],
    );
    await pool.end();
    expect(rows).toHaveLength(1);
    expect(rows[0]?.run_at.getTime()).toBeLessThanOrEqual(now.getTime());
  });

  test('the worker fits again after an import, once for many requests, and then waits for the interval', async () => {
    const shop = await makeShop(api);
    const task = await makeTask(shop, { key: 'tighten' });
    await addJobs(shop, 'tighten', [4, 4.2, 3.9, 4.1, 4.4]);
    const { askRefit } = await import('@fairlead/api/hindsight/index');
    const now = new Date();
    await shop.inside((tx) => askRefit(tx, now));
    await shop.inside((tx) => askRefit(tx, now));
    const client = createClient({ url: api.database.appUrl, poolSize: 3 });
    const worker = await createWorker({
      appUrl: api.database.appUrl,
      tasks: jobTasks(client),
      pollInterval: 100,
    });
    await vi.waitFor(async () => expect(await shop.inside((tx) => tx.hoursModel.count())).toBe(1), {
      timeout: 40_000,
      interval: 200,
    });
    const [first] = await shop.inside((tx) => tx.hoursModel.findMany());
    expect(first).toMatchObject({ number: 1, items: 5, censored: 0, settled: true });
    expect((await estimated(shop, task.id)).p50).toBeGreaterThan(3);
    // Asked again at once it waits for the set interval.
    await shop.inside((tx) => askRefit(tx, new Date()));
    const waiting = await worker.pool.query<{ run_at: Date }>(
      `select run_at from graphile_worker.jobs where key like $1`,
      [`${shop.shopId}:refit_hours:%`],
    );
    expect(waiting.rows).toHaveLength(1);
    expect((waiting.rows[0]?.run_at.getTime() ?? 0) - Date.now()).toBeGreaterThan(8 * 60_000);
    await worker.stop();
    await client.$disconnect();
  });
});
