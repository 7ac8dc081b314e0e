/** What closes is learned from by itself: one fit, and another only when the interval is over, however much closes meanwhile. */
import { jobTasks } from '@fairlead/api/jobs';
import { createClient } from '@fairlead/database';
import { createWorker } from '@fairlead/database/jobs';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask } from '../../support/shop.ts';
import { clockAt, expectDone, makeOrder, mutate } from '../work/orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const HOUR_MS = 3_600_000;

test('items that are closed or reopened ask for one fit; the next waits for ten minutes, and learns from what is closed then', async () => {
  const client = createClient({ url: api.database.appUrl, poolSize: 3 });
  const worker = await createWorker({
    appUrl: api.database.appUrl,
    tasks: jobTasks(client),
    pollInterval: 100,
  });
  try {
    const shop = await makeShop(api);
    const task = await makeTask(shop, { standardHours: '1' });
    const { items } = await makeOrder(shop, {
      items: Array.from({ length: 3 }, () => ({ taskId: task.id })),
    });
    const close = async (index: number) => {
      const id = items[index]?.id ?? '';
      const began = Date.now() - (9 - 3 * index) * HOUR_MS;
      expectDone(await clockAt(shop, 'mechanic', 'start', id, new Date(began)));
      expectDone(await clockAt(shop, 'mechanic', 'stop', null, new Date(began + 2 * HOUR_MS)));
      expectDone(
        await mutate(shop, 'mechanic', 'finishItem', { itemId: id, workDone: 'Done by the list.' }),
      );
      return id;
    };
    const models = () =>
      shop.inside((tx) =>
        tx.hoursModel.findMany({
          orderBy: { number: 'asc' },
          select: { number: true, items: true },
        }),
      );
    const waiting = async () => {
      const { rows } = await worker.pool.query<{ run_at: Date }>(
        'select run_at from graphile_worker.jobs where key like $1',
        [`${shop.shopId}:refit_hours:%`],
      );
      return rows.map(({ run_at }) => run_at.getTime());
    };
    expect([await models(), await waiting()]).toEqual([[], []]);
    await close(0);
    await vi.waitFor(async () => expect(await models()).toEqual([{ number: 1, items: 1 }]), {
      timeout: 40_000,
      interval: 200,
    });
    const fitted = Date.now();
    await close(1);
    const [due = 0, ...others] = await waiting();
    expect(others).toEqual([]);
    expect(due - fitted).toBeGreaterThan(9 * 60_000);
    expect(due - fitted).toBeLessThanOrEqual(10 * 60_000);
    // Whatever closes or opens meanwhile joins the fit that waits, and does not put it off.
    const id = await close(2);
    expectDone(
      await mutate(shop, 'inspector', 'reopenItem', { itemId: id, reason: 'It leaks again.' }),
    );
    expect(await waiting()).toEqual([due]);
    expect(await models()).toHaveLength(1);
    // When it is due, it learns from what is closed then: the one that was reopened is not.
    await worker.pool.query(
      'select graphile_worker.reschedule_jobs(array(select id from graphile_worker.jobs where key like $1), run_at := now())',
      [`${shop.shopId}:refit_hours:%`],
    );
    await vi.waitFor(
      async () =>
        expect(await models()).toEqual([
          { number: 1, items: 1 },
          { number: 2, items: 2 },
        ]),
      { timeout: 40_000, interval: 200 },
    );
    expect(await waiting()).toEqual([]);
  } finally {
    await worker.stop();
    await client.$disconnect();
  }
}, 120_000);
