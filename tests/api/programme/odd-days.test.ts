import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { add, dueOf, flown, record } from './flown.ts';

let api: TestApi;
let now = new Date('2026-03-14T23:30:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const inZone = (shop: TestShop, timeZone: string) =>
  shop.inside((tx) => tx.shop.updateMany({ data: { timeZone } }));

it('a change of the shop’s time zone on the day of signing moves no day that was said, and refuses what is tomorrow there', async () => {
  const shop = await makeShop(api);
  await inZone(shop, 'Pacific/Auckland');
  const { id = '' } = await add(shop, { title: 'Annual', rule: 'annual' });
  // There it is the 15th already.
  expect(await record(shop, id, { doneOn: '2026-03-15' })).toEqual({ id });
  const [before] = await dueOf(shop);
  expect(before).toMatchObject({ dueOn: '2027-03-31', state: 'ok' });
  await inZone(shop, 'America/Los_Angeles');
  // Here it is the 14th still: what was said stays as it was said, and is not reckoned with until that day has come.
  expect((await dueOf(shop))[0]).toMatchObject({
    state: null,
    because: expect.stringMatching(/done on 2026-03-15, and the aircraft stands at 2026-03-14/),
  });
  const other = await add(shop, { title: 'Oil', rule: 'recurring', everyMonths: 4 });
  expect((await record(shop, other.id ?? '', { doneOn: '2026-03-15' })).message).toMatch(
    /Done on 2026-03-15 was refused: today is 2026-03-14/,
  );
  now = new Date('2026-03-15T12:00:00Z');
  expect((await dueOf(shop)).find(({ title }) => title === 'Annual')).toMatchObject({
    ...{ dueOn: '2027-03-31', state: 'ok' },
  });
  expect(await shop.inside((tx) => tx.dueEvent.count())).toBe(1);
  now = new Date('2026-03-14T23:30:00Z');
});

it('29 February: twelve calendar months on it is 28 February, and to the day likewise; in no leap year it is refused', async () => {
  const shop = await makeShop(api);
  now = new Date('2024-03-02T12:00:00Z');
  const annual = await add(shop, { title: 'Annual', rule: 'annual' });
  const months = await add(shop, { title: 'Plain months', rule: 'recurring', everyMonths: 12 });
  for (const { id = '' } of [annual, months]) await record(shop, id, { doneOn: '2024-02-29' });
  // 91.409(a), calendar months: through the last day of February 2025; plain months: to its last day, which has no 29th.
  expect((await dueOf(shop)).map(({ title, dueOn }) => [title, dueOn]).sort()).toEqual([
    ['Annual', '2025-02-28'],
    ['Plain months', '2025-02-28'],
  ]);
  now = new Date('2026-03-14T23:30:00Z');
  const { errors } = await shop.as(
    'inspector',
    'mutation($input: DueEventInput!) { recordDueEvent(input: $input) { __typename } }',
    { input: { itemId: annual.id, kind: 'complied', doneOn: '2026-02-29', method: 'By the list' } },
  );
  expect(errors?.[0]?.message).toMatch(/2026-02-29/);
  expect(await shop.inside((tx) => tx.dueEvent.count())).toBe(2);
});

it('limits that contradict each other are refused with both', async () => {
  const shop = await flown(api);
  const contradicts = async (over: Record<string, unknown>) =>
    (await add(shop, { rule: 'recurring', ...over })).message;
  expect(
    await contradicts({
      ...{ everyHundredths: 5000, everyMonths: 4, whicheverLast: true, limitHundredths: 200_000 },
    }),
  ).toMatch(/contradict each other: the interval that comes last counts, and a limit would/);
  expect(await contradicts({ everyMonths: 4, whicheverLast: true })).toMatch(/one term only/);
  expect(await shop.inside((tx) => tx.dueItem.count())).toBe(0);
});
