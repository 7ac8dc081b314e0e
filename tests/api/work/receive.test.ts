import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { timeFromReadings } from '@fairlead/api/work/time-from-readings';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { expectDone, expectRefused, makeOrder, mutate } from './orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const fields =
  'state events { kind } squawks { words reportedBy } received { what returnedAt } readings { meter readingHundredths tisHundredths }';
const receive = (shop: TestShop, orderId: string, over: Record<string, unknown> = {}) =>
  mutate(
    shop,
    'front_desk',
    'receiveAircraft',
    {
      orderId,
      readings: [{ meter: 'tachometer', readingHundredths: 123450 }],
      squawks: [],
      received: [],
      ...over,
    },
    fields,
  );
const nothingWritten = async (shop: TestShop) =>
  expect(
    await shop.inside(async (tx) => [
      await tx.orderEvent.count(),
      await tx.meterReading.count(),
      await tx.squawk.count(),
      await tx.receivedThing.count(),
      await tx.stay.count({ where: { aircraftId: shop.aircraftId } }),
    ]),
  ).toEqual([0, 0, 0, 0, 0]);

describe('an aircraft arrives', () => {
  it('with its readings, squawks as they were said, what came with it, and its stand', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop, { arrived: false });
    const arrived = await receive(shop, order.id, {
      squawks: [{ words: '  pulls left when hot…', reportedBy: 'The pilot' }],
      received: ['Keys', 'Airframe record book'],
      standId: globalId('Stand', shop.standId),
    });
    expect(arrived).toMatchObject({
      state: 'here',
      events: [{ kind: 'arrived' }],
      squawks: [{ words: '  pulls left when hot…', reportedBy: 'The pilot' }],
      received: [{ what: 'Keys', returnedAt: null }, { what: 'Airframe record book' }],
      readings: [{ meter: 'tachometer', readingHundredths: 123450, tisHundredths: 123450 }],
    });
    expect(
      await shop.inside((tx) =>
        tx.stay.findMany({ select: { kind: true, orderId: true, standId: true, endsAt: true } }),
      ),
    ).toEqual([{ kind: 'actual', orderId: order.orderId, standId: shop.standId, endsAt: null }]);
    expectRefused(await receive(shop, order.id), 'CONFLICT', /again: it was received already/);
  });

  it('twice at once is once', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop, { arrived: false });
    await shop.cookie('front_desk');
    const answers = await Promise.all([1, 2, 3].map(() => receive(shop, order.id)));
    expect(answers.map(({ __typename }) => __typename).sort()).toEqual([
      'Refusal',
      'Refusal',
      'WorkOrder',
    ]);
    expect(await shop.inside((tx) => tx.meterReading.count())).toBe(1);
  });

  it('time in service goes on from the last reading of the meter', async () => {
    const shop = await makeShop(api);
    // As after a replaced meter (14 CFR 1.1, time in service stays continuous): 2450.3 h when a new meter went in at 0.
    await shop.inside((tx) =>
      tx.meterReading.create({
        data: {
          aircraftId: shop.aircraftId,
          meter: 'tachometer',
          readingHundredths: 0,
          tisHundredths: 245030,
          readAt: new Date('2026-01-01'),
        },
      }),
    );
    const order = await makeOrder(shop, { arrived: false });
    expect(
      await receive(shop, order.id, {
        readings: [
          { meter: 'tachometer', readingHundredths: 1270 },
          { meter: 'engine_on', readingHundredths: 5000 },
        ],
      }),
    ).toMatchObject({
      readings: [
        { meter: 'tachometer', tisHundredths: 246300 },
        { meter: 'engine_on', readingHundredths: 5000, tisHundredths: 246300 },
      ],
    });
  });

  it('refuses a reading that goes backwards, and says what to do about a replaced meter', async () => {
    const shop = await makeShop(api);
    const first = await makeOrder(shop, { arrived: false });
    await receive(shop, first.id);
    const next = await makeOrder(shop, { arrived: false });
    expectRefused(
      await receive(shop, next.id, {
        readings: [{ meter: 'tachometer', readingHundredths: 123440 }],
      }),
      'AGAINST_RULE',
      /tachometer: Cannot take the reading 1234\.40 h: the last was 1234\.50 h.*leave this meter out/s,
    );
    expectDone(await receive(shop, next.id, { readings: [] }));
  });

  it('refuses a stand that is taken, naming who stands there', async () => {
    const shop = await makeShop(api);
    const other = await shop.inside((tx) =>
      tx.aircraft.create({
        data: { shopId: shop.shopId, modelId: shop.modelId, registration: 'QQ-TAKEN', serial: '2' },
      }),
    );
    await shop.inside((tx) =>
      tx.stay.create({
        data: {
          standId: shop.standId,
          aircraftId: other.id,
          kind: 'actual',
          startsAt: new Date('2026-01-01'),
        },
      }),
    );
    const order = await makeOrder(shop, { arrived: false });
    expectRefused(
      await receive(shop, order.id, {
        standId: globalId('Stand', shop.standId),
        squawks: [{ words: 'x', reportedBy: 'y' }],
      }),
      'CONFLICT',
      /Stand 1 is taken: QQ-TAKEN stands there/,
    );
    await nothingWritten(shop);
    const theirs = await makeOrder(shop, { arrived: false, aircraftId: other.id });
    expectRefused(
      await receive(shop, theirs.id, { standId: globalId('Stand', shop.standId) }),
      'CONFLICT',
      /QQ-TAKEN stands there/,
    );
    expectDone(await receive(shop, order.id));
  });

  it('refuses what cannot be, and writes nothing', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop, { arrived: false });
    const twice = [
      { meter: 'tachometer', readingHundredths: 1 },
      { meter: 'tachometer', readingHundredths: 2 },
    ];
    expectRefused(
      await receive(shop, order.id, { readings: twice }),
      'BAD_INPUT',
      /tachometer is read twice/,
    );
    expectRefused(
      await receive(shop, order.id, { readings: [{ meter: 'airborne', readingHundredths: -1 }] }),
      'BAD_INPUT',
      /needed is 0 to 100000000/,
    );
    expectRefused(
      await receive(shop, order.id, {
        readings: [{ meter: 'airborne', readingHundredths: 2_000_000_000 }],
      }),
      'BAD_INPUT',
      /needed is 0 to 100000000/,
    );
    expectRefused(
      await receive(shop, order.id, { squawks: [{ words: ' ', reportedBy: 'y' }] }),
      'BAD_INPUT',
      /squawks.words has 0/,
    );
    expectRefused(
      await receive(shop, order.id, { received: Array.from({ length: 101 }, () => 'Key') }),
      'BAD_INPUT',
      /at most 100/,
    );
    expectRefused(
      await receive(shop, order.id, { standId: globalId('Stand', randomUUID()) }),
      'NOT_FOUND',
      /no such stand/,
    );
    expectRefused(await receive(await makeShop(api), order.id), 'NOT_FOUND', /no such order/);
    await nothingWritten(shop);
    await shop.inside((tx) =>
      tx.orderEvent.create({ data: { orderId: order.orderId, kind: 'cancelled' } }),
    );
    expectRefused(await receive(shop, order.id), 'CONFLICT', /because that was cancelled/);
  });
});

describe('time from readings', () => {
  const tachometer = { meter: 'tachometer', readingHundredths: 100, tisHundredths: 900 } as const;
  it('the first reading of all is the total', () =>
    expect(timeFromReadings([{ meter: 'airborne', readingHundredths: 77 }], [], null)).toEqual([
      { meter: 'airborne', readingHundredths: 77, tisHundredths: 77 },
    ]));
  it('a meter read for the first time starts from what is known', () =>
    expect(
      timeFromReadings([{ meter: 'airborne', readingHundredths: 77 }], [tachometer], tachometer),
    ).toEqual([{ meter: 'airborne', readingHundredths: 77, tisHundredths: 900 }]));
  it('the same figure again adds nothing', () =>
    expect(
      timeFromReadings(
        [{ meter: 'tachometer', readingHundredths: 100 }],
        [tachometer],
        tachometer,
      )[0]?.tisHundredths,
    ).toBe(900));
});
