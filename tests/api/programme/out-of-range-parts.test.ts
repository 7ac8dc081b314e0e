import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { aircraft, NOW } from './flown.ts';
import { isRefused, LONG, nobody, type Place, placeOf, type Row } from './out-of-range.ts';

/** What nobody can have meant is refused with what was given and what is needed, is never a fault, and changes nothing: parts, directives, the fleet, quotes. */
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
  // parts
  [
    'a part without a serial number',
    'addComponent',
    () => at.part({ serial: ' ' }),
    /serial has 0 characters/,
  ],
  [
    'a part known already',
    'addComponent',
    () => at.part({ partNumber: 'E-1', serial: 'S' }),
    /known already/,
  ],
  [
    'more since overhaul than since new',
    'addComponent',
    () => at.part({ sinceOverhaulHundredths: 10_001 }),
    /contradict each other/,
  ],
  [
    'a part older than any',
    'addComponent',
    () => at.part({ tisHundredths: 10_000_001 }),
    /tisHundredths is 10000001/,
  ],
  [
    'a life of nothing',
    'addComponent',
    () => at.part({ lifeLimitHundredths: 0 }),
    /lifeLimitHundredths is 0/,
  ],
  [
    'starts below 0',
    'addComponent',
    () => at.part({ counts: { starts: -1 } }),
    /starts is -1: needed is 0/,
  ],
  [
    'a part that is none',
    'fitComponent',
    () => at.fitting({ componentId: nobody('Component') }),
    /part/,
  ],
  [
    'a part fitted twice',
    'fitComponent',
    () => at.fitting({ componentId: at.known.fitted }),
    /is fitted to .* \(nose\) since 2026-02-12: take it off there first/,
  ],
  [
    'a place that is taken',
    'fitComponent',
    () => at.fitting({ position: 'NOSE' }),
    /is taken by Propeller, serial P/,
  ],
  [
    'on a day to come',
    'fitComponent',
    () => at.fitting({ on: '2026-03-15' }),
    /today is 2026-03-14/,
  ],
  [
    'at hours that it has not flown',
    'fitComponent',
    () => at.fitting({ tisHundredths: 130_001 }),
    /stands at 1300\.0 h/,
  ],
  [
    'at landings that it has not made',
    'fitComponent',
    () => at.fitting({ counts: { landings: 5001 } }),
    /5001 landings were refused/,
  ],
  [
    'carried by itself',
    'fitComponent',
    () => at.fitting({ parentId: at.known.shelf }),
    /does not carry itself/,
  ],
  [
    'carried by what lies on the shelf',
    'fitComponent',
    () => at.fitting({ componentId: at.known.shelf, parentId: nobody('Component') }),
    /part|not fitted/,
  ],
  [
    'a place of 10,000 characters',
    'fitComponent',
    () => at.fitting({ position: LONG }),
    /position has 10000/,
  ],
  [
    'taken off the shelf',
    'removeComponent',
    () => at.off({ componentId: at.known.shelf }),
    /lies on the shelf/,
  ],
  [
    'taken off before it was fitted',
    'removeComponent',
    () => at.off({ on: '2026-02-11' }),
    /fitted on 2026-02-12/,
  ],
  [
    'taken off at fewer hours',
    'removeComponent',
    () => at.off({ tisHundredths: 127_999 }),
    /fitted at 1280\.0 h/,
  ],
  [
    'taken off at fewer landings',
    'removeComponent',
    () => at.off({ counts: { landings: 4939 } }),
    /fitted at 4940 landings/,
  ],
  [
    'taken off without why',
    'removeComponent',
    () => at.off({ words: '' }),
    /words has 0 characters/,
  ],
  // directives
  [
    'serial numbers that are none',
    'addDirective',
    () =>
      at.directive({
        reaches: [{ modelId: globalId('AircraftModel', at.shop.modelId), serials: '1200 to 1100' }],
      }),
    /1200|1100/,
  ],
  [
    'a model that is none',
    'addDirective',
    () => at.directive({ reaches: [{ modelId: nobody('AircraftModel') }] }),
    /model/,
  ],
  ['no reach', 'addDirective', () => at.directive({ reaches: [] }), /given 0 lines/],
  [
    'a revision to come',
    'addDirective',
    () => at.directive({ revisedOn: '2026-03-15' }),
    /today is 2026-03-14/,
  ],
  [
    'within more than a century',
    'addDirective',
    () => at.directive({ withinDays: 36_601 }),
    /withinDays is 36601/,
  ],
  [
    'within landings below 1',
    'addDirective',
    () => at.directive({ withinCounts: { landings: 0 } }),
    /withinLandings is 0: needed is 1/,
  ],
  [
    'hours past any airframe, of a directive',
    'addDirective',
    () => at.directive({ withinHundredths: 10_000_001 }),
    /withinHundredths is 10000001/,
  ],
  [
    'entered already',
    'addDirective',
    () => at.directive({ number: '2026-01-01' }),
    /entered already/,
  ],
  [
    'first due past any airframe',
    'decideDirective',
    () => at.decide({ limitHundredths: 10_000_001 }),
    /limitHundredths is 10000001/,
  ],
  [
    'first due at no cycles',
    'decideDirective',
    () => at.decide({ limitCounts: { cycles: 0 } }),
    /limitCycles is 0: needed is 1/,
  ],
  [
    'decided without why',
    'decideDirective',
    () => at.decide({ reason: '' }),
    /reason has 0 characters/,
  ],
  [
    'decided for a part that is none',
    'decideDirective',
    () => at.decide({ componentId: nobody('Component') }),
    /not fitted|does not name/,
  ],
  // fleet
  [
    'an aircraft past any airframe',
    'addAircraft',
    () => ({
      modelId: globalId('AircraftModel', at.shop.modelId),
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
      modelId: globalId('AircraftModel', at.shop.modelId),
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
      modelId: globalId('AircraftModel', at.shop.modelId),
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
      aircraftId: aircraft(at.shop),
      contactId: globalId('Contact', at.shop.contactId),
      itemIds: Array(101).fill(at.known.hundred),
    }),
    /101 items were named/,
    'front_desk',
  ],
  [
    'an inspection without a package that is one',
    'quoteDue',
    () => ({
      aircraftId: aircraft(at.shop),
      contactId: globalId('Contact', at.shop.contactId),
      itemIds: [at.known.hundred],
    }),
    /“100-hour” is quoted by a package of that inspection, and none is on this quote/,
    'front_desk',
  ],
  [
    'a draft that is none',
    'addDueToQuote',
    () => ({ quoteId: nobody('Quote'), fromRevision: 1, itemIds: [at.known.hundred] }),
    /quote/,
    'front_desk',
  ],
];

describe('is refused with a sentence, and nothing is changed', () => {
  it.each(rows)('%s (%s)', (...row) => isRefused(at, row));
});
