import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { send } from './files.ts';
import { aircraft, NOW } from './flown.ts';
import { isRefused, LONG, nobody, type Place, placeOf, type Row } from './out-of-range.ts';

/** What nobody can have meant is refused with what was given and what is needed, is never a fault, and changes nothing: due items, what was done, times. */
let api: TestApi;
let at: Place;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
  at = await placeOf(api);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const rows: Row[] = [
  // due items
  [
    'hours past any airframe',
    'addDueItem',
    () => at.item({ everyHundredths: 10_000_001 }),
    /everyHundredths is 10000001: needed are 1 to 10000000/,
  ],
  [
    'hours past what a field holds',
    'addDueItem',
    () => at.item({ everyHundredths: 3_000_000_000 }),
    /3000000000/,
  ],
  ['half an hour of a hundredth', 'addDueItem', () => at.item({ everyHundredths: 0.5 }), /0\.5/],
  ['hours as a word', 'addDueItem', () => at.item({ everyHundredths: 'NaN' }), /NaN/],
  [
    'a thousand years of months',
    'addDueItem',
    () => at.item({ everyHundredths: null, everyMonths: 12_000 }),
    /everyMonths is 12000: needed are 1 to 1200/,
  ],
  [
    'days past a century',
    'addDueItem',
    () => at.item({ everyHundredths: null, everyDays: 36_601 }),
    /everyDays is 36601: needed are 1 to 36600/,
  ],
  [
    'landings past a million',
    'addDueItem',
    () => at.item({ everyCounts: { landings: 1_000_001 } }),
    /everyLandings is 1000001/,
  ],
  [
    'landings below 1',
    'addDueItem',
    () => at.item({ limitCounts: { landings: -5 } }),
    /limitLandings is -5/,
  ],
  [
    'the year 1',
    'addDueItem',
    () => at.item({ limitDate: '0001-01-01' }),
    /0001-01-01.*between 1900 and 2200/,
  ],
  [
    'the year 9999',
    'addDueItem',
    () => at.item({ limitDate: '9999-12-31' }),
    /9999-12-31.*between 1900 and 2200/,
  ],
  [
    '29 February 2100, which is no leap year',
    'addDueItem',
    () => at.item({ limitDate: '2100-02-29' }),
    /2100-02-29.*needed is a real day/,
  ],
  [
    'a limit of a hundred years ago',
    'addDueItem',
    () => at.item({ limitDate: '1901-01-01' }),
    /hundred years back/,
  ],
  [
    'an empty name',
    'addDueItem',
    () => at.item({ title: '' }),
    /title has 0 characters: needed are 2 to 200/,
  ],
  [
    'a name of 10,000 characters',
    'addDueItem',
    () => at.item({ title: LONG }),
    /title has 10000 characters/,
  ],
  [
    'a source of 10,001 characters',
    'addDueItem',
    () => at.item({ source: `${LONG}x` }),
    /10,?001|10,?000/,
  ],
  [
    'a name with what the database cannot keep',
    'addDueItem',
    () => at.item({ title: 'An\u0000nual' }),
    /U\+0000|character|NUL/i,
  ],
  [
    'another shop’s or no aircraft',
    'addDueItem',
    () => at.item({ aircraftId: nobody('Aircraft') }),
    /aircraft/,
  ],
  [
    'the key of something else',
    'addDueItem',
    () => at.item({ aircraftId: globalId('Task', at.shop.aircraftId) }),
    /aircraftId|aircraft/i,
  ],
  [
    'no key at all',
    'addDueItem',
    () => at.item({ aircraftId: 'x' }),
    /"x" is not an id of this API/,
  ],
  [
    'a part that lies on the shelf',
    'addDueItem',
    () => at.item({ componentId: at.known.shelf }),
    /not fitted to/,
  ],
  [
    'a part that is none',
    'addDueItem',
    () => at.item({ componentId: nobody('Component') }),
    /not fitted to|part/,
  ],
  ['a task that is none', 'addDueItem', () => at.item({ taskId: nobody('Task') }), /task/],
  ['a rule that is none', 'addDueItem', () => at.item({ rule: 'weekly' }), /weekly/],
  // what was done
  [
    'more hours than it has',
    'recordDueEvent',
    () => at.event({ tisHundredths: 130_001 }),
    /1300\.0 h was refused: the newest reading/,
  ],
  ['hours below 0', 'recordDueEvent', () => at.event({ tisHundredths: -1 }), /was refused/],
  [
    'a day to come',
    'recordDueEvent',
    () => at.event({ doneOn: '2026-03-15' }),
    /today is 2026-03-14/,
  ],
  [
    'a day before the last time',
    'recordDueEvent',
    () => at.event({ doneOn: '2026-01-31', tisHundredths: 126_000 }),
    /last done on 2026-02-01/,
  ],
  [
    'hours before the last time',
    'recordDueEvent',
    () => at.event({ tisHundredths: 126_999 }),
    /last done on 2026-02-01/,
  ],
  ['the year 1899', 'recordDueEvent', () => at.event({ doneOn: '1899-12-31' }), /1899-12-31/],
  [
    '29 February of a common year',
    'recordDueEvent',
    () => at.event({ doneOn: '2026-02-29' }),
    /2026-02-29/,
  ],
  ['no method', 'recordDueEvent', () => at.event({ method: '  ' }), /method has 0 characters/],
  [
    'a method of 10,000 characters',
    'recordDueEvent',
    () => at.event({ method: LONG }),
    /method has 10000 characters/,
  ],
  [
    'the end of a repeat that is none',
    'recordDueEvent',
    () => at.event({ kind: 'terminated' }),
    /not repeated/,
  ],
  [
    'landings that were not given',
    'recordDueEvent',
    () => at.event({ itemId: at.known.gear }),
    /counts landings/,
  ],
  [
    'more landings than it has',
    'recordDueEvent',
    () => at.event({ itemId: at.known.gear, counts: { landings: 5001 } }),
    /5001 landings were refused/,
  ],
  [
    'cycles that nobody counted',
    'recordDueEvent',
    () => at.event({ counts: { cycles: 1 } }),
    /1 cycles were refused: the newest count of .* is none/,
  ],
  [
    'an item that is none',
    'recordDueEvent',
    () => at.event({ itemId: nobody('DueItem') }),
    /due item/,
  ],
  // times
  [
    'a reading below the last',
    'recordReading',
    () => at.reading({ readingHundredths: 129_999 }),
    /goes backwards: 1299\.99 h, and it read 1300\.00 h/,
  ],
  [
    'a reading past any airframe',
    'recordReading',
    () => at.reading({ readingHundredths: 10_000_001, reason: 'Really' }),
    /needed is 0 to 10000000/,
  ],
  [
    'a reading below 0',
    'recordReading',
    () => at.reading({ readingHundredths: -1 }),
    /readingHundredths is -1/,
  ],
  [
    'replaced so often that it runs past any airframe',
    'recordReading',
    () =>
      at.reading({ readingHundredths: 0, oldReadingHundredths: 10_000_000, meter: 'engine_on' }),
    /never read here/,
  ],
  [
    'read tomorrow',
    'recordReading',
    () => at.reading({ readOn: '2026-03-15' }),
    /today is 2026-03-14/,
  ],
  [
    'read before the last',
    'recordReading',
    () => at.reading({ readOn: '2026-03-13' }),
    /a meter was read on 2026-03-14 already/,
  ],
  [
    'landings below the last',
    'recordReading',
    () => at.reading({ counts: { landings: 4999 } }),
    /of landings goes backwards/,
  ],
  [
    'landings past a million',
    'recordReading',
    () => at.reading({ counts: { landings: 1_000_001 }, reason: 'Really' }),
    /landings is 1000001: needed is 0 to 1000000/,
  ],
  [
    'a photo that is none',
    'recordReading',
    () => at.reading({ photoId: nobody('Photo') }),
    /photo/,
  ],
  [
    'a reason of 10,000 characters',
    'recordReading',
    () => at.reading({ reason: LONG }),
    /reason has 10000 characters/,
  ],
];

describe('is refused with a sentence, and nothing is changed', () => {
  it.each(rows)('%s (%s)', (...row) => isRefused(at, row));

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
    const before = await at.written();
    const { status, said } = await send(api, at.shop, 'flights', csv);
    expect([400, 422]).toContain(status);
    expect(JSON.stringify(said)).toMatch(words);
    expect(await at.written()).toBe(before);
  });

  it('and a meter that is replaced again and again never runs past any airframe', async () => {
    const again = () =>
      at.does(
        'recordReading',
        at.reading({ readingHundredths: 0, oldReadingHundredths: 9_000_000, reason: 'Really' }),
      );
    expect((await again()).said.code).toBeUndefined();
    const before = await at.written();
    expect((await again()).said.message).toMatch(
      /would make the time in service of QQ-\S+ \d+(\.\d+)? h: needed is at most 100000 h/,
    );
    expect(await at.written()).toBe(before);
    // What was taken can still be reckoned with.
    const { status, errors } = await at.shop.as(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { due { lines { state because } } statusSheet { rows { status } } partTimes { tisHundredths } } } }',
      { id: aircraft(at.shop) },
    );
    expect([status, errors]).toEqual([200, undefined]);
  });
});
