/**
 * Decimal places of the minor unit by ISO 4217 (the column "Minor unit" of its list one). Only the
 * currencies a small shop here is likely to bill in; another one is one line more.
 */
export const minorUnits = {
  AUD: 2,
  CAD: 2,
  CHF: 2,
  DKK: 2,
  EUR: 2,
  GBP: 2,
  JPY: 0,
  KWD: 3,
  NOK: 2,
  NZD: 2,
  SEK: 2,
  USD: 2,
} as const;

export type Currency = keyof typeof minorUnits;

/**
 * Whether a text is one of the currency codes above.
 *
 * @example isCurrency('USD') // → true
 */
export function isCurrency(code: string): code is Currency {
  return Object.hasOwn(minorUnits, code);
}

/**
 * The currency for a code that came from outside.
 *
 * @throws RangeError for a code that is not in the table, naming those that are.
 * @example currency('JPY') // → 'JPY'
 */
export function currency(code: string): Currency {
  if (!isCurrency(code)) {
    throw new RangeError(
      `Cannot use currency ${JSON.stringify(code)}: give one of ${Object.keys(minorUnits).join(', ')}`,
    );
  }
  return code;
}
