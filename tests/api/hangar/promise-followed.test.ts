import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import {
  agreedVisit,
  change,
  forecast,
  MONDAY,
  openShop,
  promised,
  receive,
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

describe('a day on the order, as work goes on', () => {
  test('clocked hours and finished items bring it nearer; what was said at arrival stays', async () => {
    const shop = await openShop(api);
    const { order } = await agreedVisit(shop, 30, 30);
    await receive(shop, order.id);
    const first = (await promised(shop, order.id)).promise!;
    await change(
      shop,
      'finishItem',
      'FinishItemInput',
      { itemId: order.items[0]!.id, workDone: 'Replaced it.' },
      '... on WorkItem { id }',
      'mechanic',
    );
    const { promise, promisedAtArrival } = await promised(shop, order.id);
    expect(promisedAtArrival).toEqual(first);
    expect(promise!.hoursP50).toBeLessThan(first.hoursP50 * 0.6);
    expect(promise!.p80! < first.p80!).toBe(true);
  });

  test('the day follows what an item waits for', async () => {
    const shop = await openShop(api);
    const { order } = await agreedVisit(shop, 4, 4);
    await receive(shop, order.id);
    const itemId = order.items[0]!.id;
    await change(
      shop,
      'waitItem',
      'WaitItemInput',
      { itemId, waitingFor: 'parts' },
      '... on WorkItem { id }',
      'mechanic',
    );
    expect((await promised(shop, order.id)).promise).toMatchObject({
      outcome: 'not_known',
      sentence: expect.stringContaining(
        'until it is known when this comes: what “Task 1” waits for',
      ),
    });
    const note = (expectedOn: string | null, saidBy = 'the supplier') =>
      change(
        shop,
        'noteExpected',
        'NoteExpectedInput',
        { itemId, what: 'The exhaust gasket', expectedOn, saidBy },
        '... on Expectation { id expectedOn saidBy notedBy { name } item { title } }',
        'mechanic',
      );
    now = new Date('2026-11-30T09:00:00Z');
    expect(await note('2026-12-08')).toMatchObject({
      expectedOn: '2026-12-08',
      saidBy: 'the supplier',
      notedBy: { name: 'Test mechanic' },
      item: { title: 'Task 1' },
    });
    expect((await promised(shop, order.id)).promise).toMatchObject({
      outcome: 'promised',
      p50: '2026-12-09',
      p80: '2026-12-09',
    });
    // The newest word holds.
    now = new Date('2026-11-30T10:00:00Z');
    await note('2026-12-01');
    expect((await promised(shop, order.id)).promise).toMatchObject({ p50: '2026-12-02' });
    // A day that passed while it still waits is no day.
    now = new Date('2026-12-02T09:00:00Z');
    expect((await promised(shop, order.id)).promise).toMatchObject({
      outcome: 'not_known',
      waits: [{ words: 'The exhaust gasket', until: null }],
    });
    await note(null);
    expect((await promised(shop, order.id)).promise).toMatchObject({ outcome: 'not_known' });
    // It came: nothing is waited for any more.
    now = new Date('2026-12-02T10:00:00Z');
    await change(shop, 'resumeItem', 'ItemInput', { itemId }, '... on WorkItem { id }', 'mechanic');
    expect((await promised(shop, order.id)).promise).toMatchObject({
      outcome: 'promised',
      p50: '2026-12-02',
      waits: [],
    });
  });

  test("while the owner's answer is awaited, no day", async () => {
    const shop = await openShop(api);
    const { order } = await agreedVisit(shop, 4);
    await receive(shop, order.id);
    await change(
      shop,
      'waitItem',
      'WaitItemInput',
      { itemId: order.items[0]!.id, waitingFor: 'owner' },
      '... on WorkItem { id }',
      'mechanic',
    );
    expect((await promised(shop, order.id)).promise).toMatchObject({
      outcome: 'not_known',
      sentence: expect.stringContaining("the owner's answer on “Task 1”"),
    });
  });

  test('another aircraft takes its part of the same two people', async () => {
    const shop = await openShop(api);
    const work = await tasks(shop, 24);
    const alone = await forecast(shop, { tasks: work });
    const { order } = await agreedVisit(shop, 200);
    await receive(shop, order.id);
    const beside = await forecast(shop, { tasks: work });
    expect(beside.p50! > alone.p50!).toBe(true);
    expect(beside.parts!.others).toBeGreaterThan(0);
  });

  test('an order that is over has no day', async () => {
    const shop = await openShop(api);
    const { order } = await agreedVisit(shop, 4);
    await shop.inside(async (tx) => {
      const { id } = await tx.workOrder.findFirstOrThrow();
      await tx.orderEvent.create({ data: { orderId: id, kind: 'cancelled' } });
    });
    expect((await promised(shop, order.id)).promise).toBeNull();
  });
});

describe('bad input', () => {
  test.each([
    [{}, 'A day was given for nothing'],
    [{ item: true, what: '' }, 'what has 0 characters: needed are 1 to 120'],
    [{ item: true, what: 'x'.repeat(121) }, 'what has 121 characters'],
    [{ item: true, what: 'Hose', saidBy: ' ' }, 'saidBy has 0 characters'],
    [
      { item: true, what: 'Hose', expectedOn: '2026-11-29' },
      'needed is a day from today, 2026-11-30',
    ],
    [{ item: true, what: 'Hose', expectedOn: '2036-11-29' }, 'to two years on'],
  ])('%j is refused', async (given, words) => {
    const shop = await openShop(api);
    const { item, ...input } = { item: false, ...given };
    const { order } = await agreedVisit(shop, 4);
    const answer = await change(
      shop,
      'noteExpected',
      'NoteExpectedInput',
      { saidBy: 'the supplier', ...(item && { itemId: order.items[0]!.id }), ...input },
      '... on Expectation { id }',
    );
    expect(answer).toMatchObject({
      __typename: 'Refusal',
      message: expect.stringContaining(words),
    });
  });

  test("another shop's item, and one that is done, are refused", async () => {
    const [shop, other] = [await openShop(api), await openShop(api)];
    const { order } = await agreedVisit(shop, 4);
    await receive(shop, order.id);
    const note = (of: TestShop) =>
      change(
        of,
        'noteExpected',
        'NoteExpectedInput',
        { itemId: order.items[0]!.id, what: 'Hose', saidBy: 'me' },
        '... on Expectation { id }',
      );
    expect(await note(other)).toMatchObject({ code: 'NOT_FOUND' });
    await change(
      shop,
      'finishItem',
      'FinishItemInput',
      { itemId: order.items[0]!.id, workDone: 'Done it.' },
      '... on WorkItem { id }',
      'mechanic',
    );
    expect(await note(shop)).toMatchObject({
      code: 'CONFLICT',
      message: 'Item 1, “Task 1”, is done: nothing is expected for it any more.',
    });
  });
});

describe('promises against releases', () => {
  const KEPT = 'query { promisesKept { orders byP50 byP80 lateAndGrown low high sentence } }';

  test('none yet; then how many were ready, and how far that can be trusted', async () => {
    const shop = await openShop(api);
    expect((await shop.as('manager', KEPT)).data).toEqual({ promisesKept: null });
    // Ten promises for 4 December: nine released by then, eight of them by the 2nd; one on the 7th, at 23:30.
    await shop.inside(async (tx) => {
      const days = [
        ...Array.from({ length: 8 }, () => '2026-12-02T15:00Z'),
        '2026-12-04T23:30Z',
        '2026-12-07T23:30Z',
      ];
      for (const released of days) {
        const { id: orderId } = await tx.workOrder.create({
          data: { aircraftId: shop.aircraftId, title: 'Visit' },
        });
        await tx.returnPromise.create({
          data: {
            orderId,
            madeAt: MONDAY,
            beginsOn: new Date('2026-11-30'),
            outcome: 'promised',
            p50On: new Date('2026-12-02'),
            p80On: new Date('2026-12-04'),
            sentence: 'Kept by a test.',
            basis: {},
          },
        });
        await tx.orderEvent.create({
          data: { orderId, kind: 'released', outcome: 'airworthy', at: new Date(released) },
        });
      }
    });
    const { data } = await shop.as<{ promisesKept: { low: number; high: number } }>(
      'manager',
      KEPT,
    );
    expect(data?.promisesKept).toMatchObject({
      orders: 10,
      byP50: 8,
      byP80: 9,
      lateAndGrown: 0,
      sentence:
        '9 of 10 were ready by the day of four in five. So few say little: in the long run it may be anything from 60 % to 98 %.',
    });
    // (p + z²/2n ± z·√(p(1 − p)/n + z²/4n²))/(1 + z²/n) for 9 of 10, worked on paper: 0.5958, 0.9821.
    expect(data?.promisesKept.low).toBeCloseTo(0.5958, 4);
    expect(data?.promisesKept.high).toBeCloseTo(0.9821, 4);
  });
});
