import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import {
  agreedVisit,
  away,
  change,
  forecast,
  MONDAY,
  openShop,
  PROMISE,
  type Promised,
  tasks,
} from './promised-visit.ts';

let now = MONDAY;
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
beforeEach(() => {
  now = MONDAY;
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('a day on the quote', () => {
  test('counted by hand: two people, eight hours a day, one task of four hours is done the same day', async () => {
    const shop = await openShop(api);
    const promise = await forecast(shop, { tasks: await tasks(shop, 4) });
    expect(promise).toMatchObject({
      beginsOn: '2026-11-30',
      outcome: 'promised',
      p50: '2026-11-30',
      p80: '2026-11-30',
      parts: { work: 0, away: 0, others: 0, waits: 0 },
    });
    expect(promise.hoursP50).toBeCloseTo(4, 0);
    expect(promise.sentence).toMatch(
      /^Four times in five by Mon 30 Nov: the work itself is most of it, /,
    );
  });

  test('hours to days: the P50 and P80 of the hours fill 16 h a day, weekends out', async () => {
    const shop = await openShop(api);
    const promise = await forecast(shop, { tasks: await tasks(shop, 30, 30, 30) });
    const workdays = [
      '2026-11-30',
      '2026-12-01',
      '2026-12-02',
      '2026-12-03',
      '2026-12-04',
      '2026-12-07',
      '2026-12-08',
      '2026-12-09',
      '2026-12-10',
      '2026-12-11',
    ];
    expect(promise.p50).toBe(workdays[Math.ceil(promise.hoursP50 / 16) - 1]);
    expect(promise.p80).toBe(workdays[Math.ceil(promise.hoursP80 / 16) - 1]);
    expect(promise.hoursP80).toBeGreaterThan(promise.hoursP50);
  });

  test('while the shop is closed it takes longer, and the sentence says so', async () => {
    const shop = await openShop(api);
    const work = await tasks(shop, 6);
    await away(shop, null, '2026-11-30', '2026-12-11');
    const promise = await forecast(shop, { tasks: work });
    expect(promise).toMatchObject({ p50: '2026-12-14', parts: { work: 0, away: 14 } });
    expect(promise.sentence).toContain('people are away or the shop is closed: 14 of the 14 days');
  });

  test('where nobody is ever in, no day is promised', async () => {
    const shop = await makeShop(api);
    expect(await forecast(shop, { tasks: await tasks(shop, 6) })).toMatchObject({
      outcome: 'nobody_in',
      p50: null,
      p80: null,
      parts: null,
      sentence: expect.stringMatching(/^No day can be promised: nobody is in from Mon 30 Nov/),
    });
  });

  test('a part that is not in the stores: no day until somebody says when it comes', async () => {
    const shop = await openShop(api);
    const work = await tasks(shop, 4);
    const part = await shop.inside((tx) =>
      tx.part.create({
        data: { shopId: shop.shopId, number: 'P-1', title: 'Test hose', unitPrice: '10' },
      }),
    );
    const input = { tasks: work, parts: [{ partId: gid('Part', part.id), quantity: '1' }] };
    expect(await forecast(shop, input)).toMatchObject({
      outcome: 'not_known',
      p50: null,
      atBestP50: '2026-11-30',
      waits: [{ words: '“Test hose”', until: null }],
      sentence: expect.stringContaining('until it is known when this comes: “Test hose”'),
    });
    await change(
      shop,
      'noteExpected',
      'NoteExpectedInput',
      { partId: gid('Part', part.id), expectedOn: '2026-12-03', saidBy: 'the supplier' },
      '... on Expectation { id }',
    );
    // Expected on Thursday, fitted on Friday.
    expect(await forecast(shop, input)).toMatchObject({
      outcome: 'promised',
      p50: '2026-12-04',
      parts: { work: 0, away: 0, others: 0, waits: 4 },
      sentence: expect.stringContaining(
        'the wait for “Test hose”, until Fri 4 Dec: 4 of the 4 days',
      ),
    });
    // In the stores: nothing to wait for.
    await shop.inside(async (tx) => {
      const lot = await tx.lot.create({
        data: {
          partId: part.id,
          supplier: 'Test supplier',
          batch: 'B1',
          receivedOn: MONDAY,
          unitCost: '5',
        },
      });
      await tx.stockMovement.create({ data: { lotId: lot.id, kind: 'receive', quantity: '2' } });
    });
    expect(await forecast(shop, input)).toMatchObject({ p50: '2026-11-30' });
  });

  test('it begins when the aircraft is planned to come', async () => {
    const shop = await openShop(api);
    await shop.inside((tx) =>
      tx.stay.create({
        data: {
          standId: shop.standId,
          aircraftId: shop.aircraftId,
          kind: 'planned',
          startsAt: new Date('2026-12-08T13:00:00Z'),
          endsAt: new Date('2026-12-11T13:00:00Z'),
        },
      }),
    );
    // Three hours are left of that day, two people: six hours. Twelve and more run into the next.
    expect(await forecast(shop, { tasks: await tasks(shop, 12) })).toMatchObject({
      beginsOn: '2026-12-08',
      p50: '2026-12-09',
    });
  });

  test('the revision keeps what was said, with what it came from, and nobody changes it', async () => {
    const shop = await openShop(api);
    const { quote } = await agreedVisit(shop, 30, 30);
    const kept = quote.newest.promise;
    now = new Date('2026-12-20T10:00:00Z');
    const again = await shop.as<{ node: { newest: { promise: Promised } } }>(
      'front_desk',
      `query ($id: ID!) { node(id: $id) { ... on Quote { newest { promise { ${PROMISE} } } } } }`,
      { id: quote.id },
    );
    expect(again.data?.node.newest.promise).toEqual(kept);
    const [row] = await shop.inside((tx) => tx.returnPromise.findMany());
    expect(row?.basis).toMatchObject({
      handsAtOnce: 2,
      seed: 1,
      draws: 4000,
      others: [],
      waits: [],
    });
    await expect(
      shop.inside((tx) => tx.returnPromise.updateMany({ data: { sentence: 'Tomorrow.' } })),
    ).rejects.toThrow();
    await expect(shop.inside((tx) => tx.returnPromise.deleteMany())).rejects.toThrow();
  });
});
