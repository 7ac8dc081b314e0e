import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { add, aircraft, flown, NOW, record } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface TripLine {
  line: {
    title: string;
    state: string | null;
    remainingHundredths: number | null;
    because: string;
  };
  now: string | null;
  beforeDeparture: boolean;
}
const trip = async (shop: TestShop, departOn: string, returnOn: string, hundredths: number) => {
  const { data, errors } = await shop.as<{ node: { dueOnTrip: TripLine[] } }>(
    'front_desk',
    `query($id: ID!, $departOn: Date!, $returnOn: Date!, $hundredths: Int!) { node(id: $id) { ... on Aircraft {
      dueOnTrip(departOn: $departOn, returnOn: $returnOn, hundredths: $hundredths) {
        line { title state remainingHundredths because } now beforeDeparture } } } }`,
    { id: aircraft(shop), departOn, returnOn, hundredths },
  );
  return errors ?? data?.node.dueOnTrip;
};

describe('a planned trip', () => {
  it('says what falls due before the return, by day and by hours, and keeps nothing', async () => {
    const shop = await flown(api);
    // At 1,300.0 h: the 100-hour is due at 1,334.5 h (91.409(b)), the annual through 31 March 2026 (91.409(a)).
    const hundred = await add(shop);
    await record(shop, hundred.id ?? '', { doneOn: '2025-12-01', tisHundredths: 123_450 });
    const annual = await add(shop, { title: 'Annual', rule: 'annual' });
    await record(shop, annual.id ?? '', { doneOn: '2025-03-10' });
    const before = await shop.inside((tx) => tx.audit.count());
    expect(await trip(shop, '2026-03-20', '2026-03-30', 3000)).toEqual([]);
    expect(await trip(shop, '2026-03-20', '2026-04-05', 3460)).toMatchObject([
      { line: { title: 'Annual', state: 'overdue' }, now: 'due_soon', beforeDeparture: false },
      {
        line: { title: '100-hour', state: 'overdue', remainingHundredths: -10 },
        ...{ now: 'ok', beforeDeparture: false },
      },
    ]);
    expect(await trip(shop, '2026-04-02', '2026-04-05', 0)).toMatchObject([
      { line: { title: 'Annual' }, beforeDeparture: true },
    ]);
    // On the very hour nothing is exceeded, and nothing is left.
    expect(await trip(shop, '2026-03-20', '2026-03-30', 3450)).toMatchObject([
      { line: { title: '100-hour', state: 'due', remainingHundredths: 0 } },
    ]);
    expect(await shop.inside((tx) => tx.audit.count())).toBe(before);
  });
  it('has among it what cannot be reckoned', async () => {
    const shop = await flown(api);
    await add(shop, { title: 'Annual', rule: 'annual' });
    expect(await trip(shop, '2026-03-20', '2026-03-21', 100)).toMatchObject([
      { line: { title: 'Annual', state: null }, now: null },
    ]);
  });
  it.each([
    ['2026-03-13', '2026-03-20', 100, /today is 2026-03-14/],
    ['2026-03-20', '2026-03-19', 100, /two days in order/],
    ['2026-03-20', '2030-03-20', 100, /three years/],
    ['2026-03-20', '2026-03-20', 2401, /needed are 0 to 24 h/],
    ['2026-03-20', '2026-03-20', -1, /needed are 0 to 24 h/],
  ])('%s to %s with %i hundredths is refused', async (from, until, hours, words) => {
    const shop = await flown(api);
    expect(await trip(shop, from, until, hours)).toMatchObject([
      { message: expect.stringMatching(words), extensions: { code: 'BAD_INPUT' } },
    ]);
  });
});
