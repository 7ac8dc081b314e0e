import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';
import { decide, sentQuote, tasksOf, yesTo } from '../quoting/quoting-shop.ts';
import { expectDone, expectRefused, makeOrder, mutate } from '../work/orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const LINES = ['Plugs out, inspected', 'Gap 0.016 to 0.019 in', 'Torqued with new gaskets'];
const FIELDS = 'state checklist { number words initials by at }';
const initial = (
  shop: TestShop,
  itemId: string | undefined,
  line: number,
  over = {},
  role: Role = 'mechanic',
) =>
  mutate(
    shop,
    role,
    'initialLine',
    { itemId, line, kind: 'initialled', clientEventId: randomUUID(), ...over },
    FIELDS,
  );
const finish = (shop: TestShop, itemId: string | undefined) =>
  mutate(shop, 'mechanic', 'finishItem', { itemId, workDone: 'Plugs serviced.' }, 'state');
const initialsOf = ({ checklist }: Record<string, unknown>) =>
  (checklist as { initials: string | null }[]).map(({ initials }) => initials);

it('is initialled line by line by whoever did it, and the item is not finished before the last', async () => {
  const shop = await makeShop(api);
  const { items } = await makeOrder(shop, { items: [{ checklist: LINES }] });
  const itemId = items[0]?.id;
  expectRefused(
    await finish(shop, itemId),
    'AGAINST_RULE',
    /^Item 1, “Test item 1”, cannot be finished: line 1 of its list, “Plugs out, inspected”, has no initials; neither have lines 2 and 3\./,
  );
  expect(expectDone(await initial(shop, itemId, 1)).checklist).toEqual([
    { number: 1, words: LINES[0], initials: 'ME', by: 'Test mechanic', at: expect.any(String) },
    { number: 2, words: LINES[1], initials: null, by: null, at: null },
    { number: 3, words: LINES[2], initials: null, by: null, at: null },
  ]);
  await initial(shop, itemId, 3, {}, 'inspector');
  expectRefused(
    await finish(shop, itemId),
    'AGAINST_RULE',
    /line 2 of its list.*has no initials\./,
  );
  expect(initialsOf(await initial(shop, itemId, 2))).toEqual(['ME', 'ME', 'IN']);
  expect(await finish(shop, itemId)).toMatchObject({ state: 'done' });
  expectRefused(
    await initial(shop, itemId, 2, { kind: 'withdrawn' }),
    'CONFLICT',
    /cannot be changed in its list: it is done/,
  );
});

it('counts a touch once, keeps the first who did it, and can be taken back', async () => {
  const shop = await makeShop(api);
  const { items } = await makeOrder(shop, { items: [{ checklist: LINES }] });
  const itemId = items[0]?.id;
  const clientEventId = randomUUID();
  await Promise.all([
    initial(shop, itemId, 1, { clientEventId }),
    initial(shop, itemId, 1, { clientEventId }),
  ]);
  expect(initialsOf(await initial(shop, itemId, 1, {}, 'inspector'))).toEqual(['ME', null, null]);
  expect(await shop.inside((tx) => tx.checklistEvent.count())).toBe(1);
  expect(initialsOf(await initial(shop, itemId, 1, { kind: 'withdrawn' }))).toEqual([
    null,
    null,
    null,
  ]);
  expect(initialsOf(await initial(shop, itemId, 1, {}, 'inspector'))).toEqual(['IN', null, null]);
  expectRefused(await initial(shop, itemId, 4), 'BAD_INPUT', /Line 4 was given.*lines 1 to 3/);
  expectRefused(await initial(shop, itemId, 0), 'BAD_INPUT', /Line 0 was given/);
  expectRefused(await initial(shop, itemId, 1, {}, 'front_desk'), 'FORBIDDEN', /a mechanic/);
  const bare = await makeOrder(shop);
  expectRefused(await initial(shop, bare.items[0]?.id, 1), 'BAD_INPUT', /has no lines/);
  expect(await finish(shop, bare.items[0]?.id)).toMatchObject({ state: 'done' });
});

it('belongs to the task; an item keeps the lines that it was opened with', async () => {
  const shop = await makeShop(api);
  const task = await makeTask(shop);
  const taskId = globalId('Task', task.id);
  const set = (lines: string[], seen: string[], role: Role = 'manager') =>
    mutate(shop, role, 'setChecklist', { taskId, lines, seen }, 'checklist');
  expect(await set(LINES, [])).toMatchObject({ checklist: LINES });
  const quote = await sentQuote(shop, { tasks: tasksOf([task]) });
  await decide(shop, yesTo(shop, quote));
  expectRefused(await set(['Other'], []), 'CONFLICT', /was changed since you read it/);
  expectDone(await set(['Something else'], LINES));
  const { data } = await shop.as<{
    orders: { edges: { node: { items: { checklist: { words: string }[] }[] } }[] };
  }>('mechanic', '{ orders { edges { node { items { checklist { words } } } } } }');
  expect(data?.orders.edges[0]?.node.items[0]?.checklist.map(({ words }) => words)).toEqual(LINES);
  expectRefused(await set(['x'], ['Something else']), 'BAD_INPUT', /1 characters: needed are 3/);
  expectRefused(
    await set(
      Array.from({ length: 61 }, () => 'Line'),
      ['Something else'],
    ),
    'BAD_INPUT',
    /61 entries: at most 60/,
  );
  expectRefused(await set([], ['Something else'], 'mechanic'), 'FORBIDDEN', /the manager/);
});
