import { expect, test } from 'vitest';
import { amountText, minorFrom } from '../features/quoting/amount-field.ts';
import { pricedWords } from '../features/quoting/charge-words.ts';
import { contactOptions } from '../features/quoting/contact-options.ts';
import { hundredthsFrom, metersOf, readingText } from '../features/quoting/meters.ts';
import { placesOf, wordsOfZone, zoneFrom, zoneOfJasc } from '../features/quoting/places.ts';
import { chainOf, firmOf, lineView } from '../features/quoting/quote-figures.ts';
import {
  allPricesRead,
  forecastAsked,
  linesAsked,
  nothingWanted,
  usableQuantity,
} from '../features/quoting/use-wanted.ts';

test('a JASC code is at its chapter’s place on the side view', () => {
  // FAA, Joint Aircraft System/Component Code Table and Definitions, 2008: 78 exhaust, 62 main rotor,
  // 64 tail rotor, 28 fuel, 32 landing gear, 57 wings, 61 propellers, 25 equipment and furnishings.
  expect(['7810', '6210', '6410', '2821', '3210', '5700', '6110', '2510'].map(zoneOfJasc)).toEqual([
    'engine_bay',
    'main_rotor',
    'tail_rotor',
    'fuel',
    'gear',
    'wing',
    'propeller',
    'cabin',
  ]);
  expect(zoneOfJasc('0000')).toBe('cabin');
  expect([
    zoneFrom('mast'),
    zoneFrom('somewhere'),
    wordsOfZone('engine_bay'),
    wordsOfZone('sump'),
  ]).toEqual(['mast', 'cabin', 'engine', 'sump']);
});

test('places are numbered as they first come, and what has no code has none', () => {
  const places = placesOf(
    [{ jasc: '7810' }, { jasc: null }, { jasc: '6200' }, { jasc: '7200' }],
    ({ jasc }) => jasc,
  );
  expect(places.map(({ number, zone, items }) => [number, zone, items.length])).toEqual([
    [1, 'engine_bay', 2],
    [2, 'main_rotor', 1],
  ]);
});

test('an amount is read as it is typed, exactly, or not at all', () => {
  expect(minorFrom('1,240.5', 'USD')).toBe(124050n);
  expect(minorFrom(' 0 ', 'USD')).toBe(0n);
  expect(minorFrom('90071992547.93', 'USD')).toBe(9007199254793n);
  // ISO 4217: the yen has no minor unit.
  expect(minorFrom('1240', 'JPY')).toBe(1240n);
  for (const text of ['', '-1', '1.005', '1e3', 'x', '1.2.3'])
    expect(minorFrom(text, 'USD')).toBeNull();
  expect(minorFrom('1240.5', 'JPY')).toBeNull();
  expect(amountText(124050n, 'USD')).toBe('1240.50');
});

test('a meter is read in hundredths of an hour', () => {
  expect(hundredthsFrom('3,286.4')).toBe(328640);
  expect(hundredthsFrom('0.07')).toBe(7);
  for (const text of ['', '-1', '1.234', 'x', '12345678']) expect(hundredthsFrom(text)).toBeNull();
  expect(readingText(328640)).toBe('3286.40');
  expect(metersOf([{ meter: 'engine_on', readingHundredths: 1 }])).toEqual(['engine_on']);
  expect(metersOf([])).toHaveLength(3);
});

test('the chain behind hours closes on them and leaves out what changes nothing', () => {
  const steps = chainOf([
    { kind: 'standard', sentence: 'The standard time is 2.00 h.', hours: 2 },
    { kind: 'shop', sentence: 'This shop.', factor: 1.12 },
    { kind: 'own-history', sentence: 'Never done here.', factor: 1 },
    { kind: 'place', sentence: 'This place.', factor: 1.41 },
    { kind: 'sample', sentence: '3 jobs.' },
  ]);
  expect(steps.map(({ words, operation }) => [words, operation])).toEqual([
    ['standard time', undefined],
    ['this shop', '×1.12'],
    ['this place', '×1.41'],
  ]);
  expect(steps.at(-1)?.value).toBeCloseTo(2 * 1.12 * 1.41, 12);
});

const line = {
  position: 1,
  title: 'x',
  quantity: '1',
  unitPrice: '10',
  low: '5',
  likely: '5',
  p80: '5',
  high: '5',
  because: [],
};

test('a flat price, its tasks, a part and a task by time are told apart, and what is firm is added', () => {
  const views = [
    lineView({ ...line, pricing: 'fixed' }, { jasc: null, part: null }),
    lineView(
      { ...line, pricing: 'fixed', low: '0', likely: '0', p80: '0', high: '0' },
      { jasc: '7200', part: null },
    ),
    lineView({ ...line, pricing: 'time_and_materials', high: '9' }, { jasc: '7200', part: null }),
    lineView(
      { ...line, pricing: 'time_and_materials' },
      { jasc: null, part: { number: 'P-1', unit: 'each' } },
    ),
  ];
  expect(views.map(({ kind }) => kind)).toEqual(['flat', 'under_flat', 'task', 'part']);
  expect(views[3]?.note).toBe('P-1 · 1 each at 10.00');
  expect(firmOf(views)).toBe(10n);
});

test('there is nothing to forecast without an aircraft and a task; a quantity on its way waits', () => {
  const part = { id: 'p', number: '1', title: 'x', unit: 'each', quantity: '' };
  const wanted = { ...nothingWanted, aircraftId: 'a', parts: [part] };
  expect(forecastAsked(nothingWanted, 3, 'USD')).toBeNull();
  expect(forecastAsked(wanted, 0, 'USD')).toBeNull();
  expect(forecastAsked({ ...wanted, packageId: 'none' }, 1, 'USD')).toMatchObject({
    packageId: null,
    parts: [],
  });
  expect(['1', '0.5', '12.125'].every(usableQuantity)).toBe(true);
  expect(['', '0', '-1', '1.', '1.0005', 'x'].some(usableQuantity)).toBe(false);
});

test('a price on its way is open until it can be read, and nothing is kept before that', () => {
  const task = { id: 't', title: 'x', jasc: '7200' };
  const sold = (price: string) => ({
    tasks: [{ ...task, sold: { pricing: 'fixed' as const, price } }],
    parts: [],
    charges: [],
  });
  expect(linesAsked(sold('1,250.5'), 'USD').tasks).toEqual([
    { taskId: 't', pricing: 'fixed', price: '125050' },
  ]);
  for (const unread of ['', '0', '-3', '1.005', 'x']) {
    expect(linesAsked(sold(unread), 'USD').tasks).toEqual([{ taskId: 't' }]);
    expect(allPricesRead(sold(unread), 'USD')).toBe(false);
  }
  expect(allPricesRead(sold('3'), 'USD')).toBe(true);
  expect(allPricesRead({ tasks: [task] }, 'USD')).toBe(true);
});

test('a charge goes as it was typed, what was left empty as nothing', () => {
  const charge = {
    ...{ id: 'c', kind: 'outside_work' as const, title: 'Magneto', price: '' },
    ...{ cost: '420.50', percent: '15', atMost: '' },
  };
  expect(linesAsked({ tasks: [], parts: [], charges: [charge] }, 'USD').charges).toEqual([
    {
      ...{ kind: 'outside_work', title: 'Magneto', price: null },
      ...{ cost: '42050', percent: '15', atMost: null },
    },
  ]);
  expect(pricedWords(charge, 'USD')).toBe('cost 420.50 USD, and 15 %');
  const supplies = { ...charge, kind: 'supplies' as const, percent: '3', atMost: '45' };
  expect(pricedWords(supplies, 'USD')).toBe('3 % of the likely labour, at most 45 USD');
  const line_ = { ...line, pricing: 'fixed', charge: 'outside_work' };
  expect(lineView(line_, { jasc: null, part: null }).kind).toBe('charge');
});

test('a task at a price of its own is no task under a flat price', () => {
  const own = { ...line, pricing: 'fixed', likely: '45000' };
  expect(lineView(own, { jasc: '7200', part: null }).kind).toBe('task');
});

test('a contact in two capacities is one choice, with both limits', () => {
  const contact = { id: 'c', name: 'A. Person' };
  expect(
    contactOptions(
      [
        { capacity: 'owner', mayAuthorise: null, contact },
        { capacity: 'payer', mayAuthorise: '150000', contact },
      ],
      'USD',
    ),
  ).toEqual([{ value: 'c', words: 'A. Person (owner; pays for it, up to 1,500.00)' }]);
});
