import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { counted } from './counted.ts';
import { send } from './files.ts';
import { add, aircraft, NOW, record, type Said } from './flown.ts';

/** What nobody can have meant is refused with what was given and what is needed, is never a fault, and changes nothing. */
let api: TestApi;
let shop: TestShop;
/** A due item that was done, one that counts, a part on the shelf, and one that is fitted. */
const known: Record<'hundred' | 'gear' | 'shelf' | 'fitted' | 'directive', string> = {
  ...{ hundred: '', gear: '', shelf: '', fitted: '', directive: '' },
};
const LONG = 'x'.repeat(10_000);
const nobody = (type: string) => globalId(type, '01a2310f-0000-7000-8000-000000000000');

type Input = Record<string, unknown>;
const does = async (
  mutation: string,
  input: Input,
  role: Role = 'inspector',
): Promise<{ status: number; said: Said }> => {
  const type = {
    addComponent: 'AddComponentInput',
    fitComponent: 'FitComponentInput',
    removeComponent: 'RemoveComponentInput',
    recordDueEvent: 'DueEventInput',
  }[mutation];
  const { status, data, errors } = await shop.as<Record<string, Said>>(
    role,
    `mutation($input: ${type ?? `${mutation[0]?.toUpperCase()}${mutation.slice(1)}Input`}!) {
      ${mutation}(input: $input) { __typename ... on Refusal { code message } } }`,
    { input },
  );
  const [error] = errors ?? [];
  return {
    status,
    said: error
      ? { code: error.extensions.code, message: error.message }
      : (data?.[mutation] ?? {}),
  };
};
/** Everything that the shop has written down. */
const written = () => shop.inside((tx) => tx.audit.count());

const part = (over: Input = {}) => ({
  ...{ kind: 'engine', title: 'Engine', partNumber: 'E-9', serial: '1', tisHundredths: 10_000 },
  ...over,
});
const directive = (over: Input = {}) => ({
  ...{ kind: 'directive', authority: 'Authority', number: '2026-09-09', subject: 'Hose' },
  ...{ revisedOn: '2026-01-10', effectiveOn: '2026-02-10', method: 'Inspect, paragraph (g)' },
  ...{ rule: 'recurring', everyHundredths: 10_000, withinHundredths: 5000 },
  reaches: [{ modelId: globalId('AircraftModel', shop.modelId) }],
  ...over,
});

beforeAll(async () => {
  api = await startApi({ now: () => NOW });
  shop = await counted(api);
  known.hundred = (await add(shop)).id ?? '';
  await record(shop, known.hundred, { doneOn: '2026-02-01', tisHundredths: 127_000 });
  known.gear =
    (await add(shop, { title: 'Gear', rule: 'recurring', everyCounts: { landings: 500 } })).id ??
    '';
  const { id: shelf } = await shop.inside((tx) =>
    tx.component.create({
      data: {
        ...{ shopId: shop.shopId, kind: 'engine', title: 'Engine', partNumber: 'E-1' },
        ...{ serial: 'S', tisHundredths: 0 },
      },
    }),
  );
  const { id: fitted } = await shop.inside((tx) =>
    tx.component.create({
      data: {
        ...{ shopId: shop.shopId, kind: 'propeller', title: 'Propeller', partNumber: 'P-1' },
        ...{ serial: 'P', tisHundredths: 0 },
      },
    }),
  );
  known.shelf = globalId('Component', shelf);
  known.fitted = globalId('Component', fitted);
  await does('fitComponent', {
    ...{ componentId: known.fitted, aircraftId: aircraft(shop), position: 'nose' },
    ...{ on: '2026-02-12', tisHundredths: 128_000, counts: { landings: 4940 } },
  });
  const { data } = await shop.as<{ addDirective: { id: string } }>(
    'inspector',
    'mutation($input: AddDirectiveInput!) { addDirective(input: $input) { ... on Directive { id } } }',
    { input: directive({ number: '2026-01-01' }) },
  );
  known.directive = data?.addDirective.id ?? '';
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const item = (over: Input = {}) => ({
  ...{ aircraftId: aircraft(shop), kind: 'inspection', title: 'Annual', source: '14 CFR 91' },
  ...{ rule: 'recurring', everyHundredths: 5000 },
  ...over,
});
const event = (over: Input = {}) => ({
  ...{ itemId: known.hundred, kind: 'complied', doneOn: '2026-03-01', method: 'By the list' },
  ...{ tisHundredths: 129_000 },
  ...over,
});
const reading = (over: Input = {}) => ({
  ...{ aircraftId: aircraft(shop), meter: 'tachometer', readingHundredths: 130_010 },
  ...over,
});
const fitting = (over: Input = {}) => ({
  ...{ componentId: known.shelf, aircraftId: aircraft(shop), position: 'left' },
  ...over,
});
const off = (over: Input = {}) => ({ componentId: known.fitted, words: 'Overhaul', ...over });
const decide = (over: Input = {}) => ({
  ...{
    directiveId: known.directive,
    aircraftId: aircraft(shop),
    binds: true,
    reason: 'By its plate',
  },
  ...over,
});

type Row = [string, string, () => Input, RegExp, Role?];
const rows: Row[] = [
  // due items
  [
    'hours past any airframe',
    'addDueItem',
    () => item({ everyHundredths: 10_000_001 }),
    /everyHundredths is 10000001: needed are 1 to 10000000/,
  ],
  [
    'hours past what a field holds',
    'addDueItem',
    () => item({ everyHundredths: 3_000_000_000 }),
    /3000000000/,
  ],
  ['half an hour of a hundredth', 'addDueItem', () => item({ everyHundredths: 0.5 }), /0\.5/],
  ['hours as a word', 'addDueItem', () => item({ everyHundredths: 'NaN' }), /NaN/],
  [
    'a thousand years of months',
    'addDueItem',
    () => item({ everyHundredths: null, everyMonths: 12_000 }),
    /everyMonths is 12000: needed are 1 to 1200/,
  ],
  [
    'days past a century',
    'addDueItem',
    () => item({ everyHundredths: null, everyDays: 36_601 }),
    /everyDays is 36601: needed are 1 to 36600/,
  ],
  [
    'landings past a million',
    'addDueItem',
    () => item({ everyCounts: { landings: 1_000_001 } }),
    /everyLandings is 1000001/,
  ],
  [
    'landings below 1',
    'addDueItem',
    () => item({ limitCounts: { landings: -5 } }),
    /limitLandings is -5/,
  ],
  [
    'the year 1',
    'addDueItem',
    () => item({ limitDate: '0001-01-01' }),
    /0001-01-01.*between 1900 and 2200/,
  ],
  [
    'the year 9999',
    'addDueItem',
    () => item({ limitDate: '9999-12-31' }),
    /9999-12-31.*between 1900 and 2200/,
  ],
  [
    '29 February 2100, which is no leap year',
    'addDueItem',
    () => item({ limitDate: '2100-02-29' }),
    /2100-02-29.*needed is a real day/,
  ],
  [
    'a limit of a hundred years ago',
    'addDueItem',
    () => item({ limitDate: '1901-01-01' }),
    /hundred years back/,
  ],
  [
    'an empty name',
    'addDueItem',
    () => item({ title: '' }),
    /title has 0 characters: needed are 2 to 200/,
  ],
  [
    'a name of 10,000 characters',
    'addDueItem',
    () => item({ title: LONG }),
    /title has 10000 characters/,
  ],
  [
    'a source of 10,001 characters',
    'addDueItem',
    () => item({ source: `${LONG}x` }),
    /10,?001|10,?000/,
  ],
  [
    'a name with what the database cannot keep',
    'addDueItem',
    () => item({ title: 'An\u0000nual' }),
    /U\+0000|character|NUL/i,
  ],
  [
    'another shop’s or no aircraft',
    'addDueItem',
    () => item({ aircraftId: nobody('Aircraft') }),
    /aircraft/,
  ],
  [
    'the key of something else',
    'addDueItem',
    () => item({ aircraftId: globalId('Task', shop.aircraftId) }),
    /aircraftId|aircraft/i,
  ],
  ['no key at all', 'addDueItem', () => item({ aircraftId: 'x' }), /"x" is not an id of this API/],
  [
    'a part that lies on the shelf',
    'addDueItem',
    () => item({ componentId: known.shelf }),
    /not fitted to/,
  ],
  [
    'a part that is none',
    'addDueItem',
    () => item({ componentId: nobody('Component') }),
    /not fitted to|part/,
  ],
  ['a task that is none', 'addDueItem', () => item({ taskId: nobody('Task') }), /task/],
  ['a rule that is none', 'addDueItem', () => item({ rule: 'weekly' }), /weekly/],
  // what was done
  [
    'more hours than it has',
    'recordDueEvent',
    () => event({ tisHundredths: 130_001 }),
    /1300\.0 h was refused: the newest reading/,
  ],
  ['hours below 0', 'recordDueEvent', () => event({ tisHundredths: -1 }), /was refused/],
  ['a day to come', 'recordDueEvent', () => event({ doneOn: '2026-03-15' }), /today is 2026-03-14/],
  [
    'a day before the last time',
    'recordDueEvent',
    () => event({ doneOn: '2026-01-31', tisHundredths: 126_000 }),
    /last done on 2026-02-01/,
  ],
  [
    'hours before the last time',
    'recordDueEvent',
    () => event({ tisHundredths: 126_999 }),
    /last done on 2026-02-01/,
  ],
  ['the year 1899', 'recordDueEvent', () => event({ doneOn: '1899-12-31' }), /1899-12-31/],
  [
    '29 February of a common year',
    'recordDueEvent',
    () => event({ doneOn: '2026-02-29' }),
    /2026-02-29/,
  ],
  ['no method', 'recordDueEvent', () => event({ method: '  ' }), /method has 0 characters/],
  [
    'a method of 10,000 characters',
    'recordDueEvent',
    () => event({ method: LONG }),
    /method has 10000 characters/,
  ],
  [
    'the end of a repeat that is none',
    'recordDueEvent',
    () => event({ kind: 'terminated' }),
    /not repeated/,
  ],
  [
    'landings that were not given',
    'recordDueEvent',
    () => event({ itemId: known.gear }),
    /counts landings/,
  ],
  [
    'more landings than it has',
    'recordDueEvent',
    () => event({ itemId: known.gear, counts: { landings: 5001 } }),
    /5001 landings were refused/,
  ],
  [
    'cycles that nobody counted',
    'recordDueEvent',
    () => event({ counts: { cycles: 1 } }),
    /1 cycles were refused: the newest count of .* is none/,
  ],
  [
    'an item that is none',
    'recordDueEvent',
    () => event({ itemId: nobody('DueItem') }),
    /due item/,
  ],
  // times
  [
    'a reading below the last',
    'recordReading',
    () => reading({ readingHundredths: 129_999 }),
    /goes backwards: 1299\.99 h, and it read 1300\.00 h/,
  ],
  [
    'a reading past any airframe',
    'recordReading',
    () => reading({ readingHundredths: 10_000_001, reason: 'Really' }),
    /needed is 0 to 10000000/,
  ],
  [
    'a reading below 0',
    'recordReading',
    () => reading({ readingHundredths: -1 }),
    /readingHundredths is -1/,
  ],
  [
    'replaced so often that it runs past any airframe',
    'recordReading',
    () => reading({ readingHundredths: 0, oldReadingHundredths: 10_000_000, meter: 'engine_on' }),
    /never read here/,
  ],
  [
    'read tomorrow',
    'recordReading',
    () => reading({ readOn: '2026-03-15' }),
    /today is 2026-03-14/,
  ],
  [
    'read before the last',
    'recordReading',
    () => reading({ readOn: '2026-03-13' }),
    /a meter was read on 2026-03-14 already/,
  ],
  [
    'landings below the last',
    'recordReading',
    () => reading({ counts: { landings: 4999 } }),
    /of landings goes backwards/,
  ],
  [
    'landings past a million',
    'recordReading',
    () => reading({ counts: { landings: 1_000_001 }, reason: 'Really' }),
    /landings is 1000001: needed is 0 to 1000000/,
  ],
  ['a photo that is none', 'recordReading', () => reading({ photoId: nobody('Photo') }), /photo/],
  [
    'a reason of 10,000 characters',
    'recordReading',
    () => reading({ reason: LONG }),
    /reason has 10000 characters/,
  ],
  // parts
  [
    'a part without a serial number',
    'addComponent',
    () => part({ serial: ' ' }),
    /serial has 0 characters/,
  ],
  [
    'a part known already',
    'addComponent',
    () => part({ partNumber: 'E-1', serial: 'S' }),
    /known already/,
  ],
  [
    'more since overhaul than since new',
    'addComponent',
    () => part({ sinceOverhaulHundredths: 10_001 }),
    /contradict each other/,
  ],
  [
    'a part older than any',
    'addComponent',
    () => part({ tisHundredths: 10_000_001 }),
    /tisHundredths is 10000001/,
  ],
  [
    'a life of nothing',
    'addComponent',
    () => part({ lifeLimitHundredths: 0 }),
    /lifeLimitHundredths is 0/,
  ],
  [
    'starts below 0',
    'addComponent',
    () => part({ counts: { starts: -1 } }),
    /starts is -1: needed is 0/,
  ],
  [
    'a part that is none',
    'fitComponent',
    () => fitting({ componentId: nobody('Component') }),
    /part/,
  ],
  [
    'a part fitted twice',
    'fitComponent',
    () => fitting({ componentId: known.fitted }),
    /is fitted to .* \(nose\) since 2026-02-12: take it off there first/,
  ],
  [
    'a place that is taken',
    'fitComponent',
    () => fitting({ position: 'NOSE' }),
    /is taken by Propeller, serial P/,
  ],
  ['on a day to come', 'fitComponent', () => fitting({ on: '2026-03-15' }), /today is 2026-03-14/],
  [
    'at hours that it has not flown',
    'fitComponent',
    () => fitting({ tisHundredths: 130_001 }),
    /stands at 1300\.0 h/,
  ],
  [
    'at landings that it has not made',
    'fitComponent',
    () => fitting({ counts: { landings: 5001 } }),
    /5001 landings were refused/,
  ],
  [
    'carried by itself',
    'fitComponent',
    () => fitting({ parentId: known.shelf }),
    /does not carry itself/,
  ],
  [
    'carried by what lies on the shelf',
    'fitComponent',
    () => fitting({ componentId: known.shelf, parentId: nobody('Component') }),
    /part|not fitted/,
  ],
  [
    'a place of 10,000 characters',
    'fitComponent',
    () => fitting({ position: LONG }),
    /position has 10000/,
  ],
  [
    'taken off the shelf',
    'removeComponent',
    () => off({ componentId: known.shelf }),
    /lies on the shelf/,
  ],
  [
    'taken off before it was fitted',
    'removeComponent',
    () => off({ on: '2026-02-11' }),
    /fitted on 2026-02-12/,
  ],
  [
    'taken off at fewer hours',
    'removeComponent',
    () => off({ tisHundredths: 127_999 }),
    /fitted at 1280\.0 h/,
  ],
  [
    'taken off at fewer landings',
    'removeComponent',
    () => off({ counts: { landings: 4939 } }),
    /fitted at 4940 landings/,
  ],
  ['taken off without why', 'removeComponent', () => off({ words: '' }), /words has 0 characters/],
  // directives
  [
    'serial numbers that are none',
    'addDirective',
    () =>
      directive({
        reaches: [{ modelId: globalId('AircraftModel', shop.modelId), serials: '1200 to 1100' }],
      }),
    /1200|1100/,
  ],
  [
    'a model that is none',
    'addDirective',
    () => directive({ reaches: [{ modelId: nobody('AircraftModel') }] }),
    /model/,
  ],
  ['no reach', 'addDirective', () => directive({ reaches: [] }), /given 0 lines/],
  [
    'a revision to come',
    'addDirective',
    () => directive({ revisedOn: '2026-03-15' }),
    /today is 2026-03-14/,
  ],
  [
    'within more than a century',
    'addDirective',
    () => directive({ withinDays: 36_601 }),
    /withinDays is 36601/,
  ],
  [
    'within landings below 1',
    'addDirective',
    () => directive({ withinCounts: { landings: 0 } }),
    /withinLandings is 0: needed is 1/,
  ],
  [
    'hours past any airframe, of a directive',
    'addDirective',
    () => directive({ withinHundredths: 10_000_001 }),
    /withinHundredths is 10000001/,
  ],
  ['entered already', 'addDirective', () => directive({ number: '2026-01-01' }), /entered already/],
  [
    'first due past any airframe',
    'decideDirective',
    () => decide({ limitHundredths: 10_000_001 }),
    /limitHundredths is 10000001/,
  ],
  [
    'first due at no cycles',
    'decideDirective',
    () => decide({ limitCounts: { cycles: 0 } }),
    /limitCycles is 0: needed is 1/,
  ],
  [
    'decided without why',
    'decideDirective',
    () => decide({ reason: '' }),
    /reason has 0 characters/,
  ],
  [
    'decided for a part that is none',
    'decideDirective',
    () => decide({ componentId: nobody('Component') }),
    /not fitted|does not name/,
  ],
  // fleet
  [
    'an aircraft past any airframe',
    'addAircraft',
    () => ({
      modelId: globalId('AircraftModel', shop.modelId),
      registration: 'QQ-9',
      serial: '9',
      meter: 'tachometer',
      readingHundredths: 0,
      tisHundredths: 10_000_001,
    }),
    /at most|needed is 0 to 100000 h/,
    'manager',
  ],
  [
    'an aircraft of the year 2200',
    'addAircraft',
    () => ({
      modelId: globalId('AircraftModel', shop.modelId),
      registration: 'QQ-9',
      serial: '9',
      year: 2200,
      meter: 'tachometer',
      readingHundredths: 0,
      tisHundredths: 0,
    }),
    /year is 2200/,
    'manager',
  ],
  [
    'an aircraft without a registration',
    'addAircraft',
    () => ({
      modelId: globalId('AircraftModel', shop.modelId),
      registration: '',
      serial: '9',
      meter: 'tachometer',
      readingHundredths: 0,
      tisHundredths: 0,
    }),
    /registration is ""/,
    'manager',
  ],
  [
    'a model of no size',
    'addModel',
    () => ({
      maker: 'Maker',
      name: 'M',
      kind: 'airplane_single',
      lengthMm: 0,
      spanMm: 1,
      heightMm: 1,
      parkedLengthMm: 1,
      parkedWidthMm: 1,
    }),
    /was given as 0 mm/,
    'manager',
  ],
  // quotes
  [
    'a hundred and one things',
    'quoteDue',
    () => ({
      aircraftId: aircraft(shop),
      contactId: globalId('Contact', shop.contactId),
      itemIds: Array(101).fill(known.hundred),
    }),
    /101 items were named/,
    'front_desk',
  ],
  [
    'an inspection without a package that is one',
    'quoteDue',
    () => ({
      aircraftId: aircraft(shop),
      contactId: globalId('Contact', shop.contactId),
      itemIds: [known.hundred],
    }),
    /“100-hour” is quoted by a package of that inspection, and none is on this quote/,
    'front_desk',
  ],
  [
    'a draft that is none',
    'addDueToQuote',
    () => ({ quoteId: nobody('Quote'), fromRevision: 1, itemIds: [known.hundred] }),
    /quote/,
    'front_desk',
  ],
];

describe('is refused with a sentence, and nothing is changed', () => {
  it.each(rows)('%s (%s)', async (_, mutation, input, words, role) => {
    const before = await written();
    const { status, said } = await does(mutation, input(), role);
    expect(said.message).toMatch(words);
    expect(status).toBeLessThan(500);
    expect([
      'BAD_INPUT',
      'NOT_FOUND',
      'CONFLICT',
      'AGAINST_RULE',
      'GRAPHQL_VALIDATION_FAILED',
      'BAD_USER_INPUT',
    ]).toContain(said.code);
    expect(await written()).toBe(before);
  });

  it.each<[string, string, RegExp]>([
    ['a time of 25 hours', 'date,flight_time\n2026-03-14,25\n', /hours such as 1\.25/],
    ['1,000 landings', 'date,flight_time,landings\n2026-03-14,1,1000\n', /0 to 999/],
    ['-1 starts', 'date,flight_time,starts\n2026-03-14,1,-1\n', /0 to 999/],
    ['half a cycle', 'date,flight_time,cycles\n2026-03-14,1,0.5\n', /0 to 999/],
    ['a flight of the year 9999', 'date,flight_time\n9999-12-31,1\n', /up to 2026-03-14/],
    ['a column that is none', 'date,flight_time,passengers\n2026-03-14,1,2\n', /passengers/],
    ['a cell of 10,000 characters', `date,flight_time\n2026-03-14,${LONG}\n`, /hours such as/],
    ['nothing at all', '', /./],
  ])('a list of flights with %s', async (_, csv, words) => {
    const before = await written();
    const { status, said } = await send(api, shop, 'flights', csv);
    expect([400, 422]).toContain(status);
    expect(JSON.stringify(said)).toMatch(words);
    expect(await written()).toBe(before);
  });

  it('and a meter that is replaced again and again never runs past any airframe', async () => {
    const again = () =>
      does(
        'recordReading',
        reading({ readingHundredths: 0, oldReadingHundredths: 9_000_000, reason: 'Really' }),
      );
    expect((await again()).said.code).toBeUndefined();
    const before = await written();
    expect((await again()).said.message).toMatch(
      /would make the time in service of QQ-\S+ \d+(\.\d+)? h: needed is at most 100000 h/,
    );
    expect(await written()).toBe(before);
    // What was taken can still be reckoned with.
    const { status, errors } = await shop.as(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { due { lines { state because } } statusSheet { rows { status } } partTimes { tisHundredths } } } }',
      { id: aircraft(shop) },
    );
    expect([status, errors]).toEqual([200, undefined]);
  });
});
