import { expect, test } from 'vitest';
import { addingSteps } from '../components/ChainDimension.tsx';
import { homeFor, sheetsFor } from '../components/sheets.ts';
import { calendarDateText, dayAndTimeText, dayText } from '../lib/figures/dates.ts';
import { clockText, groupThousands, hoursText } from '../lib/figures/hours.ts';
import { moneyText, roundMoneyText } from '../lib/figures/money.ts';
import { commonScale, differenceText, percent, quantityText } from '../lib/figures/quantity.ts';

test('hours are written in tenths and refuse what is not a number', () => {
  expect(hoursText(3.16)).toBe('3.2');
  expect(hoursText(-0.04)).toBe('0.0');
  expect(hoursText(-1.25, 2)).toBe('−1.25');
  expect(hoursText(1334.5)).toBe('1,334.5');
  expect(() => hoursText(Number.NaN)).toThrow(RangeError);
  expect(groupThousands('1240.50')).toBe('1,240.50');
});

test('a clock never rounds up and never runs backwards', () => {
  expect(clockText(3 * 3600 + 7 * 60 + 59)).toBe('3:07');
  expect(() => clockText(-1)).toThrow('-1 s');
});

test('money keeps every cent, and whole units round half away from zero', () => {
  expect(moneyText(124050n, 'USD')).toBe('1,240.50');
  expect(moneyText(-435n, 'USD')).toBe('−4.35');
  expect(moneyText(9007199254740993n, 'USD')).toBe('90,071,992,547,409.93');
  expect(roundMoneyText(124050n, 'USD')).toBe('1,241');
  expect(roundMoneyText(-124050n, 'USD')).toBe('−1,241');
  expect(roundMoneyText(-49n, 'USD')).toBe('0');
  // ISO 4217, list one: the yen has no minor unit, the Kuwaiti dinar three digits.
  expect(moneyText(1240n, 'JPY')).toBe('1,240');
  expect(moneyText(1240n, 'KWD')).toBe('1.240');
  expect(() => moneyText(1n, 'XXX')).toThrow(RangeError);
});

test('hours and money cannot be taken for each other', () => {
  expect(quantityText(3.16, 'h')).toBe('3.2');
  expect(quantityText(124050n, 'USD')).toBe('1,241');
  expect(quantityText(124050n, 'USD', 'exact')).toBe('1,240.50');
  expect(() => quantityText(12, 'USD')).toThrow(TypeError);
  expect(() => quantityText(12n, 'h')).toThrow(TypeError);
});

test('tolerances add up as printed', () => {
  expect(differenceText(3.16, 4.58, 'h')).toBe('+1.4');
  expect(differenceText(3.16, 2.41, 'h')).toBe('−0.8');
  expect(differenceText(124050n, 155000n, 'USD')).toBe('+309');
  expect(differenceText(-1, 1.5, 'h')).toBe('+2.5');
});

test('a scale holds its largest value and keeps marks on the drawing', () => {
  const scale = commonScale([3.2, 4.6, 10]);
  expect(scale).toEqual({ from: 0, to: 10.8 });
  expect(percent(2.5, { from: 0, to: 10 })).toBe(25);
  expect(percent(99, scale)).toBe(100);
  expect(commonScale([0n])).toEqual({ from: 0, to: 1 });
});

test('a chain of changes closes to the cent', () => {
  const changes = Object.freeze([
    { words: 'finding 1', change: 31001n },
    { words: 'written off', change: -2n },
  ]);
  const steps = addingSteps('quoted', 100000n, changes, 'USD');
  expect(steps.map((step) => step.operation)).toEqual([undefined, '+310.01', '−0.02']);
  expect(steps.at(-1)?.value).toBe(100000n + 31001n - 2n);
});

test('dates are the shop’s, whatever the machine’s zone', () => {
  expect(dayText('2026-03-14T23:30:00Z', 'UTC')).toBe('14 Mar 2026');
  expect(dayText('2026-03-14T23:30:00Z', 'Asia/Tokyo')).toBe('15 Mar 2026');
  expect(dayAndTimeText('2026-03-14T09:05:00Z', 'UTC')).toBe('14 Mar 2026, 09:05');
  expect(dayAndTimeText('2026-03-14T00:00:00Z', 'UTC')).toBe('14 Mar 2026, 00:00');
  expect(calendarDateText('2026-03-31')).toBe('31 Mar 2026');
  expect(() => calendarDateText('31.3.2026')).toThrow('31.3.2026');
  expect(() => dayText('soon', 'UTC')).toThrow('soon');
});

test('a person sees the sheets that are theirs', () => {
  expect(sheetsFor(['mechanic']).map((sheet) => sheet.words)).toEqual(['Floor', 'Bench', 'Stores']);
  expect(sheetsFor(['manager', 'mechanic']).map((sheet) => sheet.key)).toEqual([
    'floor',
    'desk',
    'bench',
    'stores',
    'books',
    'records',
    'hours',
  ]);
  expect(sheetsFor([])).toEqual([]);
  expect(homeFor(['mechanic'])).toBe('/bench');
  expect(homeFor(['mechanic', 'inspector'])).toBe('/floor');
});
