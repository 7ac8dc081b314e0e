import { expect, test } from 'vitest';
import { filterOf, hoursAddress } from '../features/hours/filter.ts';
import { cameOut, monthText, ratioSentence, refusalText } from '../features/hours/hours-words.ts';
import { readSentence } from '../features/hours/import-words.ts';
import { logPercent, logScale, rulings } from '../features/hours/log-scale.ts';
import { factorLines, factorPercent, factorScale } from '../features/hours/places/factor-scale.ts';

test('log paper holds every value in whole decades', () => {
  expect(logScale([0.4, 12])).toEqual({ from: -1, to: 2 });
  expect(logScale([1])).toEqual({ from: 0, to: 1 });
  expect(logScale([])).toEqual({ from: 0, to: 1 });
  expect(() => logScale([0])).toThrow('Cannot place 0');
  expect(logPercent(1, { from: -1, to: 1 })).toBe(50);
  const lines = rulings({ from: -1, to: 1 });
  expect(lines).toHaveLength(19);
  expect(lines.filter(({ strong }) => strong).map(({ value }) => value)).toEqual([0.1, 1, 10]);
  expect(lines.map(({ value }) => value)).toEqual(
    [...lines.map(({ value }) => value)].sort((a, b) => a - b),
  );
});

test('a filter goes into the address and comes out of it as it was', () => {
  const filter = { task: '', model: 'Maker T-2 & more', from: '2026-01', to: '2026-12' };
  const address = hoursAddress(filter);
  expect(address).toBe('/hours?task=&model=Maker+T-2+%26+more&from=2026-01&to=2026-12');
  expect(filterOf(new URL(address, 'http://shop.test').searchParams)).toEqual(filter);
  expect(hoursAddress({})).toBe('/hours');
  expect(filterOf(new URLSearchParams('mechanic=x&to=2026-02'))).toEqual({ to: '2026-02' });
});

test('figures are told in words', () => {
  expect(ratioSentence({ median: 1.124, low: 0.9, high: 1.4 })).toBe(
    'The middle item took 12 % longer than its P50; half of them lie between ×0.90 and ×1.40.',
  );
  expect(ratioSentence({ median: 0.8, low: 0.7, high: 1 })).toContain('20 % less');
  expect(ratioSentence({ median: 1.001, low: 0.7, high: 1 })).toContain('took its P50');
  expect(monthText('2025-09')).toBe('Sep 2025');
  const quoted = { p10: 1, p80: 3, p90: 4 };
  expect([0.9, 1, 3, 3.1, 4, 4.1].map((actual) => cameOut({ ...quoted, actual }))).toEqual([
    'under P10',
    'within',
    'within',
    'within, over P80',
    'within, over P80',
    'over P90',
  ]);
  const wrong = { problem: 'is not a number', remedy: 'Write 2.5.' };
  expect(refusalText({ column: 'hours', value: 'lots', ...wrong })).toBe(
    'hours “lots” is not a number. Write 2.5.',
  );
  expect(refusalText({ column: '', value: 'a,b', ...wrong })).toBe(
    'The row is not a number. Write 2.5.',
  );
  expect(refusalText({ column: 'task', value: '', ...wrong })).toBe(
    'task is not a number. Write 2.5.',
  );
});

test('what reading a history file brought is one sentence, and a second where rows are known', () => {
  const read = (goodRows: number, alreadyRows: number, refusedRows: number) =>
    readSentence({ goodRows, alreadyRows, refusedRows });
  expect(read(1, 0, 3)).toBe('1 row is good, 3 are refused.');
  expect(read(20_000, 12, 1)).toBe(
    '20,000 rows are good, 1 is refused. Of the good ones 12 are in the shop’s history already.',
  );
  expect(read(4, 4, 0)).toContain('All good ones are in');
  expect(read(1, 1, 0)).toContain('The good one is in');
});

test('factors stand on a scale of ratios that holds ×1 and both ends of every interval', () => {
  const scale = factorScale([0.8, 3.2]);
  expect(scale.from).toBeLessThan(0.8);
  expect(scale.to).toBeGreaterThan(3.2);
  expect(factorPercent(1, { from: 0.5, to: 2 })).toBeCloseTo(50, 9);
  // Twice and half are as far from ×1.
  const [half, one, twice] = [0.5, 1, 2].map((factor) => factorPercent(factor, scale));
  expect((twice ?? 0) - (one ?? 0)).toBeCloseTo((one ?? 0) - (half ?? 0), 9);
  expect(factorLines(scale).map(({ value }) => value)).toEqual([1, 1.25, 1.5, 2, 3]);
  // Nothing and nonsense leave an axis that can be drawn.
  const empty = factorScale([Number.NaN, Number.POSITIVE_INFINITY, -1]);
  expect(empty.from).toBeLessThan(1);
  expect(empty.to).toBeGreaterThan(1);
});
