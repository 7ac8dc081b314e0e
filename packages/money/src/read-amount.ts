import { type Minor, minor } from './amount.ts';
import { type Currency, currency as knownCurrency, minorUnits } from './currency.ts';
import { type Exact, exact, toWhole } from './exact.ts';

/**
 * Reads an amount written as a decimal, exactly.
 *
 * @param text a plain decimal, such as "1240.00"; no grouping, at most as many decimals as the
 *   currency has (EN 16931, rules BR-DEC).
 * @throws RangeError when it is not a decimal or has too many decimals.
 * @example parseAmount('-1240.5', 'USD') // → -124050n
 */
export function parseAmount(text: string, currency: Currency, what = 'amount'): Minor {
  const places = minorUnits[knownCurrency(currency)];
  const value = exact(text, what);
  if (value.decimalPlaces() > places) {
    throw new RangeError(
      `Cannot use ${text} as ${what}: ${currency} has ${places} decimal places; round it first`,
    );
  }
  return minor(toWhole(value, places));
}

/**
 * Rounds an exact number of major units (dollars) to the currency's minor units, half away from
 * zero: 0.005 USD is 1 cent and −0.005 USD is −1 cent.
 */
export function roundToMinor(value: Exact, currency: Currency): Minor {
  return minor(toWhole(value.toDecimalPlaces(minorUnits[currency]), minorUnits[currency]));
}
