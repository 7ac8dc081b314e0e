import { globalId } from '@fairlead/api/ids';
import { parse } from 'csv-parse/sync';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { counted, countedDue, readCounted } from './counted.ts';
import { send } from './files.ts';
import { add, aircraft, NOW, record, type Said } from './flown.ts';

/** What is counted goes by the same rules as hours. Figures worked by hand; the uses are common practice, no source. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const legs = {
  ...{ kind: 'inspection', title: 'Landing gear', source: 'Test manual 6', rule: 'recurring' },
  everyCounts: { landings: 500 },
};
const done = (shop: TestShop, id: string, over: Record<string, unknown> = {}) =>
  record(shop, id, { counts: { landings: 4700 }, ...over });

describe('something due every so many landings', () => {
  it('is reckoned from the count at which it was done, with when that will be by its use', async () => {
    const shop = await counted(api);
    const { id = '' } = await add(shop, legs);
    expect((await countedDue(shop)).lines).toMatchObject([
      { state: null, because: expect.stringMatching(/never done|limit/i), counts: [] },
    ]);
    expect(await record(shop, id)).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringMatching(/“Landing gear” counts landings: give how many/),
    });
    expect(await done(shop, id)).toEqual({ id });
    const { counts, lines } = await countedDue(shop);
    expect(counts).toEqual({ cycles: null, landings: 5000, starts: 2400 });
    // 180 landings in 90 days are 2 a day, in its busiest month 3, in its quietest 1: 200 more by 100, 66 and 200 days on.
    expect(lines).toMatchObject([
      {
        ...{ state: 'ok', because: expect.stringMatching(/^500 landings from the last time/) },
        counts: [{ counter: 'landings', dueAt: 5200, remaining: 200, lastAt: 4700 }],
        ...{ projectedOn: '2026-06-22', projectedFrom: '2026-05-19', projectedTo: '2026-09-30' },
      },
    ]);
    const before = await record(shop, id, { counts: { landings: 4600 } });
    expect(before).toMatchObject({ code: 'BAD_INPUT' });
    expect(await done(shop, id, { counts: { landings: 5001 } })).toMatchObject({
      message: expect.stringMatching(/5001 landings were refused: the newest count of .* is 5000/),
    });
  });

  it('whichever comes first of hours, days and counts, or last', async () => {
    const shop = await counted(api);
    const every = {
      everyHundredths: 20_000,
      everyMonths: 12,
      everyCounts: { landings: 310, starts: 40 },
    };
    const first = await add(shop, { ...legs, title: 'First', ...every });
    const last = await add(shop, { ...legs, title: 'Last', ...every, whicheverLast: true });
    for (const { id = '' } of [first, last])
      await done(shop, id, { tisHundredths: 126_000, counts: { landings: 4700, starts: 2370 } });
    // 10 landings and 10 starts left, 160 h, and ten months: of the first due soon, of the last not.
    expect((await countedDue(shop)).lines.map(({ title, state }) => [title, state])).toEqual([
      ['First', 'due_soon'],
      ['Last', 'ok'],
    ]);
  });

  it('says that landings since the last count are in nobody’s list', async () => {
    const shop = await counted(api);
    const { id = '' } = await add(shop, legs);
    await done(shop, id);
    await readCounted(shop, {}, { readingHundredths: 130_500 });
    expect((await countedDue(shop)).lines[0]?.because).toMatch(
      /; landings were last counted 5\.00 h ago, what came since is not in it$/,
    );
  });
});

describe('a count that is entered', () => {
  it('backwards or in a jump is questioned, and taken only with a reason by name', async () => {
    const shop = await counted(api);
    expect(await readCounted(shop, { landings: 4990 })).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringMatching(/of landings goes backwards: 4990, and it was 5000 before/),
    });
    expect(await readCounted(shop, { landings: 5100 })).toMatchObject({
      message: expect.stringMatching(/of landings jumps: .* 100 in 1 day are over 60 a day/),
    });
    const readings = () => shop.inside((tx) => tx.meterReading.count());
    expect(await readings()).toBe(4);
    expect(
      await readCounted(shop, { landings: 5100 }, { reason: 'Log of the week' }),
    ).toHaveProperty('id');
    expect((await countedDue(shop)).counts).toMatchObject({ landings: 5100, starts: 2400 });
    expect(await readCounted(shop, { cycles: -1 })).toMatchObject({
      message: 'cycles is -1: needed is 0 to 1000000.',
    });
  });

  it('runs on by a list of flights; what was never counted does not begin at nothing', async () => {
    const later = await startApi({ now: () => new Date('2026-03-20T09:00:00Z') });
    const shop = await counted(later);
    const list =
      'date,flight_time,landings,starts\n2026-03-16,1,4,2\n2026-03-16,1,1,1\n2026-03-18,2,,\n';
    expect(await send(later, shop, 'flights', list)).toMatchObject({
      status: 201,
      said: { flights: 3, landings: 6, starts: 4, cycles: 3 },
    });
    expect((await countedDue(shop)).counts).toEqual({ cycles: null, landings: 5006, starts: 2404 });
    await later.stop();
  });
});

const part = async (shop: TestShop, mutation: string, type: string, input: object) => {
  const { data, errors } = await shop.as<Record<string, Said>>(
    'mechanic',
    `mutation($input: ${type}!) { ${mutation}(input: $input) { ... on Component { id } ... on Refusal { code message } } }`,
    { input },
  );
  return data?.[mutation] ?? { message: JSON.stringify(errors) };
};
const wheel = {
  ...{ kind: 'accessory', title: 'Wheel', partNumber: 'W-2', serial: '5', tisHundredths: 10_000 },
  counts: { landings: 1000 },
};

it('a part carries its landings and their limit to another aircraft (14 CFR 43.10)', async () => {
  const shop = await counted(api);
  const other = await shop.inside(async (tx) => {
    const { id } = await tx.aircraft.create({
      data: { shopId: shop.shopId, modelId: shop.modelId, registration: 'QQ-3RD', serial: '3' },
    });
    await tx.meterReading.create({
      data: {
        ...{ aircraftId: id, meter: 'tachometer', readAt: new Date('2026-03-01'), landings: 300 },
        ...{ readingHundredths: 50_000, tisHundredths: 50_000 },
      },
    });
    return globalId('Aircraft', id);
  });
  const { id: componentId = '' } = await part(shop, 'addComponent', 'AddComponentInput', wheel);
  const fitOn = (over: object) =>
    part(shop, 'fitComponent', 'FitComponentInput', { componentId, position: 'left', ...over });
  const then = { on: '2025-12-14', tisHundredths: 124_000 };
  expect(
    await fitOn({ aircraftId: aircraft(shop), ...then, counts: { landings: 5001 } }),
  ).toMatchObject({
    message: expect.stringMatching(/5001 landings were refused/),
  });
  await fitOn({ aircraftId: aircraft(shop), ...then, counts: { landings: 4820 } });
  await add(shop, {
    ...{ ...legs, kind: 'limit', title: 'Life of the wheel', rule: 'life_limit', componentId },
    ...{ everyCounts: undefined, limitCounts: { landings: 1300 } },
  });
  // 1,000 + (5,000 − 4,820) = 1,180 of 1,300: due when the aircraft has 5,120.
  expect((await countedDue(shop)).lines).toMatchObject([
    {
      counts: [{ counter: 'landings', dueAt: 5120, remaining: 120 }],
      because: expect.stringMatching(/by the part’s own count, now 1180 landings/),
    },
  ]);
  const off = (over: object) =>
    part(shop, 'removeComponent', 'RemoveComponentInput', { componentId, words: 'Moved', ...over });
  expect(await off({ counts: { landings: 4000 } })).toMatchObject({
    message: expect.stringMatching(
      /fitted at 4820 landings of .*: it cannot have come off at 4000/,
    ),
  });
  expect(await off({ disposition: 'tag' })).toEqual({ id: componentId });
  await fitOn({ aircraftId: other });
  expect((await countedDue(shop, other)).lines).toMatchObject([
    { counts: [{ dueAt: 420, remaining: 120 }], state: 'ok' },
  ]);
  const { data } = await shop.as<{
    node: {
      times: { counts: { landings: number } };
      stays: { countedThere: { landings: number } }[];
    };
  }>(
    'inspector',
    'query($id: ID!) { node(id: $id) { ... on Component { times { counts { landings } } stays { countedThere { landings } } } } }',
    { id: componentId },
  );
  expect(data?.node).toEqual({
    times: { counts: { landings: 1180 } },
    stays: [{ countedThere: { landings: null } }, { countedThere: { landings: 180 } }],
  });
});

it('a trip takes them along, and asks for them where nobody says', async () => {
  const shop = await counted(api);
  const { id = '' } = await add(shop, legs);
  await done(shop, id);
  const trip = async (counts: object | null, hundredths = 1000) =>
    (
      await shop.as<{ node: { dueOnTrip: { line: { state: string | null; because: string } }[] } }>(
        'front_desk',
        `query($id: ID!, $counts: CountsInput, $hundredths: Int!) { node(id: $id) { ... on Aircraft {
          dueOnTrip(departOn: "2026-03-20", returnOn: "2026-03-30", hundredths: $hundredths, counts: $counts) {
            line { state because } } } } }`,
        { id: aircraft(shop), counts, hundredths },
      )
    ).data?.node.dueOnTrip.map(({ line }) => [line.state, line.because]);
  expect(await trip({ landings: 199 })).toEqual([]);
  expect(await trip({ landings: 200 })).toMatchObject([['due', expect.any(String)]]);
  expect(await trip({ landings: 201 })).toMatchObject([['overdue', expect.any(String)]]);
  expect(await trip(null)).toEqual([
    [null, '“Landing gear” counts landings: say how many there will be until the return'],
  ]);
  expect(await trip(null, 0)).toEqual([]);
});

it('stands on files in and out, in the calendar and on the status sheet', async () => {
  const shop = await counted(api);
  const FILE =
    'title,kind,source,rule,every_landings,limit_starts,last_on,last_at_landings,last_method\n' +
    'Landing gear,inspection,Test manual 6,recurring,500,,2026-01-20,4700,Done\n' +
    'Starter,limit,Test manual 7,life_limit,,3000,,,\n';
  expect(await send(api, shop, 'items', FILE)).toEqual({
    status: 201,
    said: { added: 2, refused: [] },
  });
  expect(
    (await send(api, shop, 'items', FILE.replaceAll('4700', '5001').replace('500,', '0,'))).said,
  ).toMatchObject({
    added: 0,
    refused: expect.arrayContaining([
      expect.objectContaining({ column: 'every_landings', value: '0' }),
    ]),
  });
  const response = await fetch(`${api.origin}/due/items/${aircraft(shop)}.csv`, {
    headers: { cookie: await shop.cookie('front_desk') },
  });
  const rows = parse(await response.text(), { columns: true }) as Record<string, string>[];
  expect(rows).toMatchObject([
    {
      title: 'Landing gear',
      due_at_landings: '5200',
      left_landings: '200',
      last_at_landings: '4700',
    },
    { title: 'Starter', limit_starts: '3000', due_at_starts: '3000', left_starts: '600' },
  ]);
  const feed = await shop.as<{ makeDueFeed: { path: string } }>(
    'front_desk',
    'mutation($id: ID) { makeDueFeed(aircraftId: $id) { ... on DueFeedAddress { path } } }',
    { id: aircraft(shop) },
  );
  const calendar = await (await fetch(`${api.origin}${feed.data?.makeDueFeed.path}`)).text();
  const [event] = new ICAL.Component(ICAL.parse(calendar)).getAllSubcomponents('vevent');
  expect(new ICAL.Event(event!).description).toMatch(/Due at 5200 landings\./);
  expect(String(new ICAL.Event(event!).startDate)).toBe('2026-05-19');
  const { data } = await shop.as<{ node: { statusSheet: { rows: Record<string, string>[] }[] } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Aircraft { statusSheet { rows { what status last next } } } } }',
    { id: aircraft(shop) },
  );
  const said = data?.node.statusSheet.flatMap((section) => section.rows) ?? [];
  expect(said).toMatchObject([
    { status: '1300.00 h, 5000 landings, 2400 starts' },
    { what: 'Starter', next: '3000 starts, 600 left' },
    {
      what: 'Landing gear',
      last: '2026-01-20, 4700 landings, Done',
      next: expect.stringMatching(/^5200 landings, 200 left, about 2026-06-22$/),
    },
  ]);
});

it('terms that contradict themselves or are none are refused', async () => {
  const shop = await counted(api);
  for (const [over, words] of [
    [{ everyCounts: { landings: 0 } }, /everyLandings is 0: needed are 1 to 1000000 landings/],
    [{ rule: 'annual' }, /everyLandings was given with the rule annual/],
    [{ rule: 'life_limit' }, /everyLandings was given with the rule life_limit/],
    [{ everyCounts: {} }, /needs how often/],
    [{ whicheverLast: true }, /whicheverLast was given with one term only/],
  ] as const)
    expect(await add(shop, { ...legs, ...over })).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringMatching(words),
    });
  expect(await shop.inside((tx) => tx.dueItem.count())).toBe(0);
});

it('a directive within so many landings after it takes effect counts from the count of that day, and then repeats', async () => {
  const shop = await counted(api);
  const input = {
    ...{ kind: 'directive', authority: 'Authority', number: '2026-02-02', subject: 'Gear leg' },
    ...{ revisedOn: '2026-01-10', effectiveOn: '2026-02-20', method: 'Inspect, paragraph (g)' },
    ...{ rule: 'recurring', withinCounts: { landings: 100 }, everyCounts: { landings: 300 } },
    reaches: [{ modelId: globalId('AircraftModel', shop.modelId) }],
  };
  const { data } = await shop.as<{
    addDirective: Said & { terms?: string; countsAsked?: string[] };
  }>(
    'inspector',
    'mutation($input: AddDirectiveInput!) { addDirective(input: $input) { ... on Directive { id terms countsAsked } ... on Refusal { message } } }',
    { input },
  );
  expect(data?.addDirective).toMatchObject({
    terms: 'First within 100 landings after 2026-02-20; then every 300 landings',
    countsAsked: ['landings'],
  });
  const decided = await shop.as<{ decideDirective: Said }>(
    'inspector',
    'mutation($input: DecideDirectiveInput!) { decideDirective(input: $input) { ... on Directive { id } ... on Refusal { message } } }',
    {
      input: {
        ...{ directiveId: data?.addDirective.id, aircraftId: aircraft(shop) },
        ...{ binds: true, reason: 'By its plate' },
      },
    },
  );
  expect(decided.data?.decideDirective.message).toBeUndefined();
  // 4,940 at the last reading before 20 February: first by 5,040; done at 5,000, next by 5,300.
  const due = async () => (await countedDue(shop)).lines.map(({ counts }) => counts);
  expect(await due()).toMatchObject([[{ dueAt: 5040, remaining: 40 }]]);
  const item = await shop.inside((tx) => tx.dueItem.findFirstOrThrow({ select: { id: true } }));
  await done(shop, globalId('DueItem', item.id), {
    ...{ doneOn: '2026-03-14', counts: { landings: 5000 } },
  });
  expect(await due()).toMatchObject([[{ dueAt: 5300, remaining: 300 }]]);
});
