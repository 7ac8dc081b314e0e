import { type Currency, currency as knownCurrency, minorUnits } from './currency.ts';

declare const unit: unique symbol;

/** A whole number of a currency's minor units: cents for USD, yen for JPY, fils for KWD. */
export type Minor = bigint & { readonly [unit]: 'minor units' };

/** An amount that knows its currency. */
export interface Money {
  readonly amount: Minor;
  readonly currency: Currency;
}

// What a PostgreSQL bigint column holds; an amount past it could be computed but never kept.
const LARGEST = 2n ** 63n - 1n;

/**
 * Brands a whole number as minor units: the one place where that happens.
 *
 * @param value from −(2^63 − 1) to 2^63 − 1.
 * @throws TypeError when it is not a bigint, RangeError when it is outside that range.
 * @example minor(124000n) // → 124000n
 */
export function minor(value: bigint): Minor {
  if (typeof value !== 'bigint') {
    throw new TypeError(
      `Cannot use ${String(value)} as an amount: it is a ${typeof value}; give minor units as a bigint, such as 124000n`,
    );
  }
  if (value > LARGEST || value < -LARGEST) {
    throw new RangeError(
      `Cannot keep the amount ${value}: give at most ${LARGEST} minor units either side of zero`,
    );
  }
  return value as Minor;
}

/** No money at all, in any currency. */
export const nothing: Minor = minor(0n);

/**
 * An amount with its currency.
 *
 * @example money(minor(124000n), 'USD') // → { amount: 124000n, currency: 'USD' }
 */
export function money(amount: Minor, currency: Currency): Money {
  return { amount: minor(amount), currency: knownCurrency(currency) };
}

/**
 * An amount as a plain decimal, the form that documents and interfaces carry.
 *
 * @example formatAmount(minor(-5n), 'USD') // → '-0.05'
 */
export function formatAmount(amount: Minor, currency: Currency): string {
  const places = minorUnits[knownCurrency(currency)];
  const digits = (amount < 0n ? -amount : amount).toString().padStart(places + 1, '0');
  const whole = digits.slice(0, digits.length - places);
  const sign = amount < 0n ? '-' : '';
  return places === 0 ? `${sign}${whole}` : `${sign}${whole}.${digits.slice(-places)}`;
}

/**
 * An amount for people to read: comma for thousands, point for decimals, whatever the machine's
 * locale. The currency is said once on a page, not at each figure.
 *
 * @example formatMoney(minor(124000n), 'USD') // → '1,240.00'
 * @example formatMoney(minor(-1240n), 'JPY') // → '-1,240'
 */
export function formatMoney(amount: Minor, currency: Currency): string {
  const [whole = '', ...decimals] = formatAmount(amount, currency).split('.');
  return [whole.replace(/\B(?=(\d{3})+$)/g, ','), ...decimals].join('.');
}

/**
 * Adds amounts of one currency; nothing adds to 0.
 *
 * @example sumOf([minor(72081n), minor(1n), minor(-72081n), minor(-1n)]) // → 0n
 */
export function sumOf(amounts: readonly Minor[]): Minor {
  return minor(amounts.reduce((sum, amount) => sum + amount, 0n));
}

/**
 * Adds amounts that carry their currency.
 *
 * @throws RangeError when there is nothing to add or the currencies differ: a shop's page never adds
 *   dollars to euros.
 * @example sumOfMoney([money(minor(1n), 'USD'), money(minor(2n), 'USD')]) // → { amount: 3n, currency: 'USD' }
 */
export function sumOfMoney(amounts: readonly Money[]): Money {
  const [first] = amounts;
  if (first === undefined) {
    throw new RangeError('Cannot add no amounts: give at least one, so that the currency is known');
  }
  const other = amounts.find(({ currency }) => currency !== first.currency);
  if (other !== undefined) {
    throw new RangeError(
      `Cannot add ${other.currency} to ${first.currency}: give amounts of one currency`,
    );
  }
  return money(sumOf(amounts.map(({ amount }) => amount)), first.currency);
}
