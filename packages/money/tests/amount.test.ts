import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Currency,
  currency,
  formatAmount,
  formatMoney,
  minor,
  minorUnits,
  money,
  nothing,
  parseAmount,
  sumOf,
  sumOfMoney,
} from '../src/index.ts';

const currencies = Object.keys(minorUnits).map(currency);
const anyMinor = fc.bigInt({ min: -(10n ** 16n), max: 10n ** 16n }).map(minor);

test('what is formatted reads back as the same amount, in every currency', () => {
  fc.assert(
    fc.property(anyMinor, fc.constantFrom(...currencies), (amount, code) => {
      expect(parseAmount(formatAmount(amount, code), code)).toBe(amount);
      expect(formatMoney(amount, code).replaceAll(',', '')).toBe(formatAmount(amount, code));
    }),
    { numRuns: 1000 },
  );
});

test.each<[string, Currency, bigint]>([
  ['-0.00', 'USD', 0n],
  ['-0', 'KWD', 0n],
  ['1240', 'USD', 124000n],
  ['0.005', 'KWD', 5n],
  ['000012.30', 'EUR', 1230n],
])('%s %s is %d minor units', (text, code, expected) => {
  expect(parseAmount(text, code)).toBe(expected);
});

test('zero has no sign however it came about', () => {
  expect(formatAmount(parseAmount('-0.00', 'USD'), 'USD')).toBe('0.00');
  expect(formatAmount(sumOf([minor(1n), minor(-1n)]), 'USD')).toBe('0.00');
  expect(sumOf([])).toBe(nothing);
});

test.each([
  ['1,240.00', /Cannot read "1,240.00" as amount/],
  ['1e3', /Cannot read "1e3"/],
  ['', /Cannot read ""/],
  ['+1', /Cannot read/],
  ['NaN', /Cannot read/],
  ['٣', /Cannot read/],
  ['1.', /Cannot read/],
  ['1.005', /USD has 2 decimal places/],
  ['1234567890123456789', /more than 18 digits/],
])('refuses %j', (text, message) => {
  expect(() => parseAmount(text, 'USD')).toThrow(message);
});

test('a JavaScript number is refused before it can be wrong', () => {
  expect(() => parseAmount(0.1 as unknown as string, 'USD')).toThrow(TypeError);
  expect(() => minor(12 as unknown as bigint)).toThrow(TypeError);
});

test('an amount that no bigint column holds is refused', () => {
  expect(minor(2n ** 63n - 1n)).toBe(9223372036854775807n);
  expect(() => minor(2n ** 63n)).toThrow(/at most 9223372036854775807 minor units/);
});

test('currencies are never mixed, and unknown ones are named', () => {
  expect(() => sumOfMoney([money(minor(1n), 'USD'), money(minor(1n), 'EUR')])).toThrow(
    'Cannot add EUR to USD',
  );
  expect(() => sumOfMoney([])).toThrow('Cannot add no amounts');
  expect(() => currency('usd')).toThrow(
    /Cannot use currency "usd": give the three letters of ISO 4217/,
  );
  expect(() => currency('toString')).toThrow(RangeError);
});
