import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask, type TestShop } from '../../support/shop.ts';
import { draft, forOwner, gid, quoted, tasksOf } from './quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Said {
  code?: string;
  message?: string;
  field?: string;
  likely: string;
  hours: { p50: number };
  promise: { beginsOn: string };
}
async function whatIf(shop: TestShop, input: Record<string, unknown>): Promise<Said> {
  const answer = await shop.as<{ quoteForecast: Said }>(
    'front_desk',
    `query ($input: QuoteForecastInput!) { quoteForecast(input: $input) {
      ... on Refusal { code message field } ... on QuoteForecast { likely hours { p50 } promise { beginsOn } } } }`,
    { input: { aircraftId: gid('Aircraft', shop.aircraftId), ...input } },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer.errors));
  return answer.data.quoteForecast;
}
const day = (ahead: number) => new Date(Date.now() + ahead * 86_400_000).toISOString().slice(0, 10);

it('another mechanic changes the hours as the shop’s own times say, and nothing of it is kept', async () => {
  const shop = await makeShop(api);
  const task = await makeTask(shop);
  const near = (hours: number) => Array.from({ length: 12 }, (_, k) => hours * (0.9 + k / 55));
  await addJobs(shop, task.key, near(4), { mechanic: 'Test mechanic' });
  await addJobs(shop, task.key, near(2), { mechanic: 'Test inspector' });
  await learn(shop);
  const tasks = tasksOf([task]);
  const free = await whatIf(shop, { tasks });
  const slow = await whatIf(shop, { tasks, mechanicId: gid('Person', shop.people.mechanic.id) });
  const quick = await whatIf(shop, { tasks, mechanicId: gid('Person', shop.people.inspector.id) });
  expect(slow.hours.p50).toBeGreaterThan(free.hours.p50);
  expect(quick.hours.p50).toBeLessThan(free.hours.p50);
  expect(BigInt(slow.likely)).toBeGreaterThan(BigInt(quick.likely));
  const kept = quoted(await draft(shop, { ...forOwner(shop), tasks }));
  expect(kept.newest.likely).toBe(free.likely);
  expect(kept.newest.hours.p50).toBeCloseTo(free.hours.p50, 5);
});

it('another day changes from when it is promised, not the price', async () => {
  const shop = await makeShop(api);
  const tasks = tasksOf([await makeTask(shop, { standardHours: 3 })]);
  const now = await whatIf(shop, { tasks });
  const later = await whatIf(shop, { tasks, beginsOn: day(20) });
  expect(now.promise.beginsOn).not.toBe(day(20));
  expect(later).toEqual({ ...now, promise: { beginsOn: day(20) } });
});

it.each([
  ['yesterday', day(-2), /to 365 days on/],
  ['in two years', day(700), /to 365 days on/],
])('a beginning %s is refused with what is needed', async (_, beginsOn, words) => {
  const shop = await makeShop(api);
  const tasks = tasksOf([await makeTask(shop, { standardHours: 3 })]);
  expect(await whatIf(shop, { tasks, beginsOn })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'beginsOn',
    message: expect.stringMatching(words) as string,
  });
});

it('somebody who does not work here is refused', async () => {
  const shop = await makeShop(api);
  const other = await makeShop(api);
  const tasks = tasksOf([await makeTask(shop, { standardHours: 3 })]);
  for (const id of [other.people.mechanic.id, randomUUID()])
    expect(await whatIf(shop, { tasks, mechanicId: gid('Person', id) })).toMatchObject({
      code: 'NOT_FOUND',
    });
});
