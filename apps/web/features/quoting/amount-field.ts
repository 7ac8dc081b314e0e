import { currency, formatAmount, minor, parseAmount } from '@fairlead/money';

/**
 * An amount as it stands in a field: digits and a point, no commas.
 *
 * @example amountText(124050n, 'USD') // → '1240.50'
 */
export const amountText = (amount: bigint, code: string): string =>
  formatAmount(minor(amount), currency(code));

/**
 * What somebody typed as an amount, in minor units; null where it is none, or below zero. Commas
 * and blanks between thousands are read over.
 *
 * @example minorFrom('1,240.5', 'USD') // → 124050n
 */
export function minorFrom(text: string, code: string): bigint | null {
  const plain = text.replaceAll(/[,\s]/g, '');
  if (!/^\d{1,12}(\.\d+)?$/.test(plain)) return null;
  try {
    return parseAmount(plain, currency(code));
  } catch {
    // More decimals than the currency has.
    return null;
  }
}
