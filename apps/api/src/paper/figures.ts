import { currency, formatMoney, type Minor, minor, minorUnits } from '@fairlead/money';

/** U+2212, as wide as a plus: a hyphen would shift the column. */
export const minus = '\u2212';

/** What is known of hours or money before the work is done: hours as numbers, money as minor units. */
export type Estimate =
  | { unit: 'h'; p10: number; p50: number; p80: number; p90: number }
  | { unit: string; p10: bigint; p50: bigint; p80: bigint; p90: bigint };

/**
 * Commas between thousands of a plain decimal text.
 *
 * @example grouped('1240.50') // → '1,240.50'
 */
export function grouped(text: string): string {
  const [whole = '', fraction] = text.split('.');
  const head = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return fraction === undefined ? head : `${head}.${fraction}`;
}

const signAs = (text: string) => text.replace('-', minus);

/** An exact amount, to the minor unit, without its currency: '1,240.50'. */
export const moneyText = (amount: bigint, code: string) =>
  signAs(formatMoney(minor(amount), currency(code)));

/** An estimate of money, rounded half away from zero to the whole unit: '1,241'. */
export function roundMoneyText(amount: bigint, code: string): string {
  const unit = 10n ** BigInt(minorUnits[currency(code)]);
  const size = amount < 0n ? -amount : amount;
  const whole: Minor = minor((size + unit / 2n) / unit);
  return (amount < 0n && whole > 0n ? minus : '') + grouped(whole.toString());
}

/** Hours in tenths: '3.2'. */
export function hoursText(hours: number): string {
  const text = grouped(Math.abs(hours).toFixed(1));
  return hours < 0 && Number(hours.toFixed(1)) !== 0 ? minus + text : text;
}

/** Hundredths of an hour as a record keeps them: '2,463.00'. */
export const recordHours = (hundredths: number) => grouped((hundredths / 100).toFixed(2));

/** An exact decimal with at least so many places: '12.50', '0.1234'. */
export function decimalText(text: string, least: number): string {
  const [whole = '0', fraction = ''] = text.replace('-', '').split('.');
  const kept = fraction.replace(/0+$/, '').padEnd(least, '0');
  const figures = grouped(kept === '' ? whole : `${whole}.${kept}`);
  return text.startsWith('-') ? minus + figures : figures;
}

/** An estimate in words as a drawing would dimension it. */
export interface Dimension {
  /** '3.2' */
  nominal: string;
  /** '+1.4' and '−0.8'; null for what is firm. */
  tolerance: { up: string; down: string } | null;
  /** '2.4 to 4.6'; null for what is firm. */
  range: string | null;
}

/**
 * Writes an estimate so that what is printed adds up: the tolerances are differences of the figures as
 * they are written, not of what lies behind them.
 *
 * @example dimensionOf({ unit: 'h', p10: 2.4, p50: 3.16, p80: 4, p90: 4.58 }) // → { nominal: '3.2', tolerance: { up: '+1.4', down: '−0.8' }, range: '2.4 to 4.6' }
 */
export function dimensionOf(estimate: Estimate): Dimension {
  const write = (value: number | bigint) =>
    typeof value === 'bigint' ? roundMoneyText(value, estimate.unit) : hoursText(value);
  const { p10, p50, p90 } = estimate;
  // To the cent where it is firm; an estimate to the cent would claim more than it knows.
  if (p10 === p90 && typeof p50 === 'bigint')
    return { nominal: moneyText(p50, estimate.unit), tolerance: null, range: null };
  const [low, nominal, high] = [write(p10), write(p50), write(p90)];
  if (p10 === p90) return { nominal, tolerance: null, range: null };
  const read = (text: string) => Number(text.replaceAll(',', '').replace(minus, '-'));
  const places = estimate.unit === 'h' ? 1 : 0;
  const step = (to: string) => {
    const size = read(to) - read(nominal);
    const text = grouped(Math.abs(size).toFixed(places));
    return (size < 0 ? minus : '+') + text;
  };
  return {
    nominal,
    tolerance: { up: step(high), down: step(low) },
    range: `${low} to ${high}`,
  };
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A civil date, YYYY-MM-DD, as '31 Mar 2026'. */
export function dateText(date: string): string {
  const [year, month, day] = date.slice(0, 10).split('-').map(Number);
  return `${day} ${months[(month ?? 1) - 1]} ${year}`;
}

/** The day of an instant where the shop is: '14 Mar 2026'. */
export const dayText = (instant: string | Date, timeZone: string) =>
  dateText(
    new Intl.DateTimeFormat('en-CA', {
      timeZone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
    }).format(new Date(instant)),
  );

/** Day and time of an instant where the shop is: '14 Mar 2026, 09:05'. */
export const dayAndTimeText = (instant: string | Date, timeZone: string) =>
  `${dayText(instant, timeZone)}, ${new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(new Date(instant))}`;
