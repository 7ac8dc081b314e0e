// Not the package's index: its arithmetic weighs 15 kB, and the bench only writes amounts.
import { formatMoney, minor } from '@fairlead/money/amount';
import { currency, minorUnits } from '@fairlead/money/currency';
import { groupThousands, minus } from './hours.ts';

/**
 * An exact amount as figures, without its currency.
 *
 * @param amount minor units (cents)
 * @param code ISO 4217; one that the shop cannot bill in throws RangeError
 * @example moneyText(124050n, 'USD') // → '1,240.50'
 */
export function moneyText(amount: bigint, code: string): string {
  return formatMoney(minor(amount), currency(code)).replace('-', minus);
}

/**
 * An amount rounded half away from zero to the whole unit, for estimates: an estimate to the cent
 * would claim more than it knows.
 *
 * @example roundMoneyText(124050n, 'USD') // → '1,241'
 */
export function roundMoneyText(amount: bigint, code: string): string {
  const unit = 10n ** BigInt(minorUnits[currency(code)]);
  const size = amount < 0n ? -amount : amount;
  const whole = (size + unit / 2n) / unit;
  return (amount < 0n && whole > 0n ? minus : '') + groupThousands(whole.toString());
}
