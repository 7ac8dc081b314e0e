import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';

/** Monday, 30 November 2026, 08:00 in the shop, which keeps UTC. */
const MONDAY = new Date('2026-11-30T08:00:00Z');
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

const PROMISE = `beginsOn outcome p50 p80 atBestP50 atBestP80 sentence hoursP50 hoursP80 parts { work away others waits } waits { words until }`;
interface Promised {
  beginsOn: string;
  outcome: string;
  p50: string | null;
  p80: string | null;
  atBestP50: string | null;
  atBestP80: string | null;
  sentence: string;
  hoursP50: number;
  hoursP80: number;
  parts: { work: number; away: number; others: number; waits: number } | null;
  waits: { words: string; until: string | null }[];
}

/** A shop that is open Monday to Friday from 8 to 16; its mechanic and its inspector are in then. */
async function openShop(): Promise<TestShop> {
  const shop = await makeShop(api);
  await shop.inside((tx) =>
    tx.weeklyHours.createMany({
      data: [1, 2, 3, 4, 5].map((weekday) => ({
        shopId: shop.shopId,
        weekday,
        fromMinute: 480,
        toMinute: 960,
      })),
    }),
  );
  return shop;
}
const away = (shop: TestShop, personId: string | null, firstDay: string, lastDay: string) =>
  shop.inside((tx) =>
    tx.dayException.create({
      data: {
        shopId: shop.shopId,
        personId,
        firstDay: new Date(firstDay),
        lastDay: new Date(lastDay),
        reason: 'Away',
      },
    }),
  );

async function forecast(shop: TestShop, over: Record<string, unknown>): Promise<Promised> {
  const answer = await shop.as<{ quoteForecast: { promise: Promised } }>(
    'front_desk',
    `query ($input: QuoteForecastInput!) { quoteForecast(input: $input) { ... on Refusal { message } ... on QuoteForecast { promise { ${PROMISE} } } } }`,
    { input: { aircraftId: gid('Aircraft', shop.aircraftId), ...over } },
  );
  if (!answer.data?.quoteForecast.promise) throw new Error(JSON.stringify(answer));
  return answer.data.quoteForecast.promise;
}
/** A task whose hours are all but certain, so that days can be counted by hand: the model's own doubt is what is left. */
const tasks = async (shop: TestShop, ...hours: number[]) =>
  Promise.all(
    hours.map(async (standardHours, index) => ({
      taskId: gid('Task', (await makeTask(shop, { title: `Task ${index + 1}`, standardHours })).id),
    })),
  );

const MUTATE = (name: string, type: string, of: string) =>
  `mutation ($input: ${type}!) { ${name}(input: $input) { __typename ... on Refusal { code message field } ${of} } }`;
async function change(
  shop: TestShop,
  name: string,
  type: string,
  input: Record<string, unknown>,
  of: string,
  role: Parameters<TestShop['as']>[0] = 'front_desk',
) {
  const answer = await shop.as<Record<string, Record<string, unknown>>>(
    role,
    MUTATE(name, type, of),
    { input },
  );
  const given = answer.data?.[name];
  if (!given) throw new Error(`${name}: ${JSON.stringify(answer)}`);
  return given as { __typename: string; code: string; message: string; id: string } & Record<
    string,
    unknown
  >;
}

/** A visit that the owner agreed to, not arrived. */
async function agreedVisit(shop: TestShop, ...hours: number[]) {
  const quote = await change(
    shop,
    'draftQuote',
    'DraftQuoteInput',
    {
      aircraftId: gid('Aircraft', shop.aircraftId),
      contactId: gid('Contact', shop.contactId),
      tasks: await tasks(shop, ...hours),
    },
    `... on Quote { id newest { promise { ${PROMISE} } } }`,
  );
  await change(
    shop,
    'sendQuote',
    'SendQuoteInput',
    { quoteId: quote.id, revision: 1, channel: 'email' },
    '... on Quote { id }',
  );
  const said = await change(
    shop,
    'recordDecision',
    'RecordDecisionInput',
    {
      quoteId: quote.id,
      revision: 1,
      contactId: gid('Contact', shop.contactId),
      choice: 'go_ahead',
      channel: 'telephone',
      wordsShown: 'What it may cost.',
    },
    '... on Quote { order { id items { id } } }',
  );
  const order = said.order as { id: string; items: { id: string }[] };
  return { quote: quote as typeof quote & { newest: { promise: Promised } }, order };
}
const receive = (shop: TestShop, orderId: string) =>
  change(
    shop,
    'receiveAircraft',
    'ReceiveAircraftInput',
    { orderId, readings: [], squawks: [], received: [] },
    '... on WorkOrder { id }',
  );
async function promised(shop: TestShop, orderId: string) {
  const answer = await shop.as<{
    node: { promise: Promised | null; promisedAtArrival: Promised | null };
  }>(
    'front_desk',
    `query ($id: ID!) { node(id: $id) { ... on WorkOrder { promise { ${PROMISE} } promisedAtArrival { ${PROMISE} } } } }`,
    { id: orderId },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.node;
}

describe('a day on the quote', () => {
  test('counted by hand: two people, eight hours a day, one task of four hours is done the same day', async () => {
    const shop = await openShop();
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
    const shop = await openShop();
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
    const shop = await openShop();
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
    const shop = await openShop();
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
    const shop = await openShop();
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
    const shop = await openShop();
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

describe('a day on the order, as work goes on', () => {
  test('clocked hours and finished items bring it nearer; what was said at arrival stays', async () => {
    const shop = await openShop();
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
    const shop = await openShop();
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
    const shop = await openShop();
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
    const shop = await openShop();
    const work = await tasks(shop, 24);
    const alone = await forecast(shop, { tasks: work });
    const { order } = await agreedVisit(shop, 200);
    await receive(shop, order.id);
    const beside = await forecast(shop, { tasks: work });
    expect(beside.p50! > alone.p50!).toBe(true);
    expect(beside.parts!.others).toBeGreaterThan(0);
  });

  test('an order that is over has no day', async () => {
    const shop = await openShop();
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
    const shop = await openShop();
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
    const [shop, other] = [await openShop(), await openShop()];
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
    const shop = await openShop();
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
