import { globalId } from '@fairlead/api/ids';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';

const NOW = new Date('2026-03-14T09:00:00Z');
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

type Said = { id?: string; code?: string; message?: string };
const aircraft = (shop: TestShop) => globalId('Aircraft', shop.aircraftId);

/** An aircraft at 1,300.0 h that flew 10 h, 30 h and 20 h in the months before. */
async function flown(): Promise<TestShop> {
  const shop = await makeShop(api);
  await shop.inside((tx) =>
    tx.meterReading.createMany({
      data: [
        ['2025-12-14', 124_000],
        ['2026-01-13', 125_000],
        ['2026-02-12', 128_000],
        ['2026-03-14', 130_000],
      ].map(([day, tis]) => ({
        aircraftId: shop.aircraftId,
        meter: 'tachometer' as const,
        readingHundredths: Number(tis),
        tisHundredths: Number(tis),
        readAt: new Date(`${day}T08:00:00Z`),
      })),
    }),
  );
  return shop;
}
async function add(
  shop: TestShop,
  over: Record<string, unknown> = {},
  role: 'inspector' | 'mechanic' = 'inspector',
) {
  const { data } = await shop.as<{ addDueItem: Said }>(
    role,
    'mutation($input: AddDueItemInput!) { addDueItem(input: $input) { ... on DueItem { id } ... on Refusal { code message } } }',
    {
      input: {
        aircraftId: aircraft(shop),
        ...{
          kind: 'inspection',
          title: '100-hour',
          source: '14 CFR 91.409(b)',
          rule: 'hundred_hour',
        },
        ...over,
      },
    },
  );
  return data?.addDueItem ?? {};
}
async function record(shop: TestShop, itemId: string, over: Record<string, unknown> = {}) {
  const { data } = await shop.as<{ recordDueEvent: Said }>(
    'inspector',
    'mutation($input: DueEventInput!) { recordDueEvent(input: $input) { ... on DueItem { id } ... on Refusal { code message } } }',
    {
      input: {
        itemId,
        kind: 'complied',
        doneOn: '2026-01-20',
        method: 'Done by the list',
        ...over,
      },
    },
  );
  return data?.recordDueEvent ?? {};
}
interface Line {
  itemId: string;
  title: string;
  state: string | null;
  because: string;
  dueOn: string | null;
  dueAtHundredths: number | null;
  remainingHundredths: number | null;
  projectedOn: string | null;
  projectedFrom: string | null;
  projectedTo: string | null;
  lastMethod: string | null;
}
async function dueOf(shop: TestShop): Promise<Line[]> {
  const { data, errors } = await shop.as<{ node: { due: { lines: Line[] } } }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on Aircraft { due { lines { itemId title state because dueOn dueAtHundredths
      remainingHundredths projectedOn projectedFrom projectedTo lastMethod } } } } }`,
    { id: aircraft(shop) },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.node.due.lines;
}

describe('what falls due', () => {
  it('a 100-hour and an annual, by 14 CFR 91.409, with when the hours will be flown', async () => {
    const shop = await flown();
    const hundred = await add(shop);
    const annual = await add(shop, { title: 'Annual', rule: 'annual', source: '14 CFR 91.409(a)' });
    // 91.409(b): done 1,234.5, due 1,334.5. 91.409(a): done 10 March 2025, through 31 March 2026.
    await record(shop, hundred.id ?? '', { doneOn: '2025-12-01', tisHundredths: 123_450 });
    await record(shop, annual.id ?? '', { doneOn: '2025-03-10', method: 'Annual by list 4' });
    const [first, second] = await dueOf(shop);
    expect(first).toMatchObject({
      title: 'Annual',
      state: 'due_soon',
      dueOn: '2026-03-31',
      lastMethod: 'Annual by list 4',
    });
    // 34.5 h left; 60 h in 90 days as usual, 30 h in its busiest 30 days, 10 h in its quietest.
    expect(second).toMatchObject({
      ...{ title: '100-hour', state: 'ok', dueAtHundredths: 133_450, remainingHundredths: 3450 },
      ...{ projectedOn: '2026-05-04', projectedFrom: '2026-04-17', projectedTo: '2026-06-25' },
      because: expect.stringMatching(/14 CFR 91\.409\(b\)/),
    });
  });
  it('hours flown past due count against the next 100 (91.409(b))', async () => {
    const shop = await flown();
    const { id = '' } = await add(shop);
    await record(shop, id, { doneOn: '2025-08-01', tisHundredths: 110_000 });
    // Due 1,200.0, done 1,204.2: the next at 1,300.0, not 1,304.2.
    await record(shop, id, { doneOn: '2025-10-20', tisHundredths: 120_420 });
    expect((await dueOf(shop))[0]).toMatchObject({ dueAtHundredths: 130_000, state: 'due' });
  });
  it('a life-limited part by its own time: fitted with 150 h at 1,240 h, limit 220 h, due at 1,310 h', async () => {
    const shop = await flown();
    const componentId = await shop.inside(async (tx) => {
      const { id } = await tx.component.create({
        data: {
          shopId: shop.shopId,
          ...{ kind: 'rotor', title: 'Tail rotor blade', partNumber: 'TB-1', serial: '77' },
          tisHundredths: 15_000,
        },
      });
      await tx.componentFitting.create({
        data: {
          ...{ componentId: id, aircraftId: shop.aircraftId, position: 'tail rotor' },
          ...{ fittedAt: new Date('2025-12-14'), aircraftTisHundredths: 124_000 },
        },
      });
      return id;
    });
    await add(shop, {
      ...{ kind: 'limit', title: 'Tail rotor blade', source: 'Test manual 4', rule: 'life_limit' },
      ...{ limitHundredths: 22_000, componentId: globalId('Component', componentId) },
    });
    expect((await dueOf(shop))[0]).toMatchObject({
      ...{ dueAtHundredths: 131_000, remainingHundredths: 1000, state: 'due_soon' },
    });
  });
  it('says what is missing where nothing can be reckoned, first of all', async () => {
    const shop = await flown();
    await add(shop, { title: 'Annual', rule: 'annual' });
    expect((await dueOf(shop))[0]).toMatchObject({
      state: null,
      because: expect.stringMatching(/Annual.*last/),
    });
    const unread = await makeShop(api);
    const { id = '' } = await add(unread, {
      rule: 'recurring',
      everyHundredths: 5000,
      everyMonths: 4,
    });
    expect((await record(unread, id, { tisHundredths: 100 })).message).toMatch(
      /newest reading of .* is none/,
    );
  });
  it('what ended falls due no more', async () => {
    const shop = await flown();
    const { id = '' } = await add(shop, {
      ...{ kind: 'directive', title: 'Fuel hose', number: 'QQ-2025-01', source: 'Test authority' },
      ...{ rule: 'once', limitDate: '2026-06-30' },
    });
    expect((await dueOf(shop))[0]).toMatchObject({ state: 'ok', dueOn: '2026-06-30' });
    await record(shop, id, { kind: 'ended', method: 'Hose replaced: terminating action' });
    expect(await dueOf(shop)).toEqual([]);
    expect((await record(shop, id)).code).toBe('CONFLICT');
  });
});

describe('is refused', () => {
  it.each<[string, Record<string, unknown>, RegExp]>([
    ['a directive without its number', { kind: 'directive' }, /91\.417\(a\)\(2\)\(v\)/],
    ['an interval of nothing', { rule: 'recurring' }, /recurring needs how often/],
    ['an interval that is none', { rule: 'recurring', everyMonths: 0 }, /everyMonths is 0/],
    [
      'calendar months without how many',
      { rule: 'calendar_months' },
      /needs how many calendar months/,
    ],
    [
      'terms that the rule has itself',
      { everyHundredths: 5000 },
      /everyHundredths was given with the rule hundred_hour/,
    ],
    ['a life without its end', { rule: 'life_limit' }, /needs the limit/],
    ['no name', { title: ' ' }, /title has 0 characters/],
  ])('%s', async (_, over, words) => {
    const shop = await flown();
    expect(await add(shop, over)).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringMatching(words),
    });
    expect(await shop.inside((tx) => tx.dueItem.count())).toBe(0);
  });
  it.each<[string, Record<string, unknown>, RegExp]>([
    ['compliance in the future', { doneOn: '2026-03-15' }, /today is 2026-03-14/],
    [
      'more hours than the aircraft has',
      { tisHundredths: 130_001 },
      /newest reading of .* is 1300\.0 h/,
    ],
    ['hours left out where they count', {}, /counts hours/],
    ['no method', { tisHundredths: 1, method: '' }, /method has 0 characters/],
  ])('%s', async (_, over, words) => {
    const shop = await flown();
    const { id = '' } = await add(shop);
    expect(await record(shop, id, over)).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringMatching(words),
    });
    expect(await shop.inside((tx) => tx.dueEvent.count())).toBe(0);
  });
  it('from a mechanic, and for what is before the last time', async () => {
    const shop = await flown();
    expect((await add(shop, {}, 'mechanic')).code).toBe('FORBIDDEN');
    const { id = '' } = await add(shop);
    await record(shop, id, { tisHundredths: 125_000 });
    expect(
      (await record(shop, id, { doneOn: '2025-01-01', tisHundredths: 120_000 })).message,
    ).toMatch(/last done on 2026-01-20 at 1250\.0 h/);
    // The same again is the same.
    expect(await record(shop, id, { tisHundredths: 125_000 })).toEqual({ id });
    expect(await shop.inside((tx) => tx.dueEvent.count())).toBe(1);
  });
});

it('what falls due goes onto one quote with one touch, each task once', async () => {
  const shop = await flown();
  const [oil, magneto] = [
    await makeTask(shop, { title: 'Oil service' }),
    await makeTask(shop, { title: 'Magneto inspection' }),
  ];
  const items = [
    await add(shop, { title: 'Oil', taskId: globalId('Task', oil.id) }),
    await add(shop, { title: 'Filter', taskId: globalId('Task', oil.id) }),
    await add(shop, { title: 'Magnetos', taskId: globalId('Task', magneto.id) }),
  ].map(({ id }) => id ?? '');
  const quote = async (itemIds: string[]) =>
    (
      await shop.as<{ quoteDue: Said & { latest?: unknown; title?: string } }>(
        'front_desk',
        'mutation($input: QuoteDueInput!) { quoteDue(input: $input) { ... on Quote { id title } ... on Refusal { code message } } }',
        {
          input: {
            aircraftId: aircraft(shop),
            contactId: globalId('Contact', shop.contactId),
            itemIds,
          },
        },
      )
    ).data?.quoteDue;
  expect(await quote(items)).toMatchObject({ title: 'Due: Oil, Filter, Magnetos' });
  const lines = await shop.inside((tx) =>
    tx.quoteLine.findMany({ where: { taskId: { not: null } } }),
  );
  expect(lines.map(({ taskId }) => taskId).sort()).toEqual([oil.id, magneto.id].sort());
  const without = await add(shop, { title: 'Compass' });
  expect(await quote([without.id ?? ''])).toMatchObject({
    ...{ code: 'AGAINST_RULE', message: expect.stringMatching(/“Compass” has no task/) },
  });
  expect(await quote([])).toMatchObject({ code: 'BAD_INPUT' });
});

describe('a calendar (RFC 5545), read by another library', () => {
  const feed = async (shop: TestShop, all = false) =>
    (
      await shop.as<{ makeDueFeed: { path: string } }>(
        'front_desk',
        'mutation($id: ID) { makeDueFeed(aircraftId: $id) { ... on DueFeedAddress { path } } }',
        { id: all ? null : aircraft(shop) },
      )
    ).data?.makeDueFeed.path ?? '';
  const read = async (path: string) => {
    const response = await fetch(`${api.origin}${path}`);
    return {
      status: response.status,
      type: response.headers.get('content-type'),
      text: await response.text(),
    };
  };
  it('has each item on its day; by hours on the day of its busiest use', async () => {
    const shop = await flown();
    const hundred = await add(shop);
    const annual = await add(shop, { title: 'Annual; list, 4', rule: 'annual' });
    await add(shop, { title: 'Not reckoned', rule: 'annual' });
    await record(shop, hundred.id ?? '', { doneOn: '2025-12-01', tisHundredths: 123_450 });
    await record(shop, annual.id ?? '', { doneOn: '2025-03-10' });
    const answer = await read(await feed(shop));
    expect([answer.status, answer.type]).toEqual([200, 'text/calendar; charset=utf-8']);
    const calendar = new ICAL.Component(ICAL.parse(answer.text));
    const events = calendar.getAllSubcomponents('vevent').map((each) => new ICAL.Event(each));
    expect(
      events.map(({ summary, startDate, endDate }) => [
        summary.replace(/^QQ-\w+: /, ''),
        startDate.isDate,
        String(startDate),
        String(endDate),
      ]),
    ).toEqual([
      ['Annual; list, 4', true, '2026-03-31', '2026-04-01'],
      ['100-hour (about)', true, '2026-04-17', '2026-04-18'],
    ]);
    expect(events[0]?.description).toMatch(/91\.409\(a\)[\s\S]*Due dates are aids/);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(2);
    const every = answer.text.split('\r\n');
    expect(Math.max(...every.map((line) => Buffer.byteLength(line)))).toBeLessThanOrEqual(75);
  });
  it('opens by its address alone, which a new one ends; of the shop it has every aircraft', async () => {
    const [shop, other] = [await flown(), await flown()];
    for (const each of [shop, other]) {
      const { id = '' } = await add(each, { rule: 'annual' });
      await record(each, id);
    }
    const first = await feed(shop);
    const second = await feed(shop);
    expect([(await read(first)).status, (await read(second)).status]).toEqual([404, 200]);
    const all = await read(await feed(shop, true));
    expect(all.text.match(/BEGIN:VEVENT/g)).toHaveLength(1);
    expect((await read('/due/guessed.ics')).status).toBe(404);
  });
});
