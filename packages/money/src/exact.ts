import { Decimal } from 'decimal.js';

/**
 * decimal.js on its own terms: 40 significant digits (its default of 20 loses cents on long sums),
 * half rounded away from zero, and never an exponent in what it prints. `Decimal` itself is left
 * untouched, so another user of the library in the same process keeps its own settings.
 */
const Exact = Decimal.clone({
  precision: 40,
  rounding: Decimal.ROUND_HALF_UP,
  toExpNeg: -60,
  toExpPos: 60,
});

export type Exact = Decimal;

// Two factors of at most 18 digits have a product of at most 36: inside the 40 digits, so exact.
const MOST_DIGITS = 18;
const DECIMAL_TEXT = /^-?\d+(\.\d+)?$/;

/**
 * Reads a decimal number written as plain text, without ever passing through a float.
 *
 * @param text digits, an optional leading minus and an optional decimal point: no exponent, no
 *   grouping, no plus sign, at most 18 significant digits.
 * @param what what the number is, for the message: "unit price".
 * @returns the number, exactly; −0 becomes 0.
 * @throws TypeError when it is not text (a JavaScript number is refused: it may already be wrong);
 *   RangeError when the text is not such a number.
 */
export function exact(text: string, what = 'number'): Exact {
  if (typeof text !== 'string') {
    throw new TypeError(
      `Cannot use ${String(text)} as ${what}: it is a ${typeof text}; give a decimal as text, such as "12.50"`,
    );
  }
  if (!DECIMAL_TEXT.test(text)) {
    throw new RangeError(
      `Cannot read ${JSON.stringify(text)} as ${what}: give digits with an optional minus and decimal point, such as "-12.50"`,
    );
  }
  const value = new Exact(text);
  if (value.precision(true) > MOST_DIGITS || value.decimalPlaces() > MOST_DIGITS) {
    throw new RangeError(
      `Cannot use ${text} as ${what}: it has more than ${MOST_DIGITS} digits, the most that are kept exactly`,
    );
  }
  return value.isZero() ? new Exact(0) : value;
}

/**
 * A quotient rounded half away from zero to whole units, exactly: a rounding to 40 digits first and
 * to units afterwards could turn "just under a half" into a half, so the division is done on whole
 * numbers and looks at the true remainder.
 *
 * @throws RangeError when the divisor is zero.
 */
export function divideToWhole(dividend: bigint, divisor: bigint): bigint {
  if (divisor === 0n) {
    throw new RangeError('Cannot divide by 0: give a divisor other than 0');
  }
  const negative = dividend < 0n !== divisor < 0n;
  const top = dividend < 0n ? -dividend : dividend;
  const bottom = divisor < 0n ? -divisor : divisor;
  const rounded = (2n * top + bottom) / (2n * bottom);
  return negative ? -rounded : rounded;
}

/** A decimal as a whole number of 10^−places units; the caller has made sure that nothing is cut off. */
export function toWhole(value: Exact, places: number): bigint {
  return BigInt(value.mul(new Exact(10).pow(places)).toFixed(0));
}
