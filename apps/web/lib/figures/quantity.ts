import { hoursText, minus } from './hours.ts';
import { moneyText, roundMoneyText } from './money.ts';

/** Hours as a number, or money as minor units. */
export type Quantity = number | bigint;

/** `'h'` for hours, else the ISO 4217 code of the money. */
export type Unit = string;

/** How finely a quantity is written: an estimate to tenths or whole units, an account to the cent. */
export type Fineness = 'estimate' | 'exact';

/**
 * A quantity without its unit.
 *
 * @throws TypeError for hours as bigint or money as number: the two must not be mixed up
 * @example quantityText(3.16, 'h') // → '3.2'
 * @example quantityText(124050n, 'USD') // → '1,241'
 * @example quantityText(124050n, 'USD', 'exact') // → '1,240.50'
 */
export function quantityText(value: Quantity, unit: Unit, fineness: Fineness = 'estimate'): string {
  if (unit === 'h') {
    if (typeof value === 'bigint') throw new TypeError(`Hours need a number, got ${value}n`);
    return hoursText(value);
  }
  if (typeof value !== 'bigint') {
    throw new TypeError(`Money needs minor units as bigint, got ${value} ${unit}`);
  }
  return fineness === 'exact' ? moneyText(value, unit) : roundMoneyText(value, unit);
}

/**
 * A difference of two written quantities, with its sign, so that what is printed adds up:
 * 3.16 and 4.58 print as 3.2 and 4.6, and their difference as +1.4, not +1.42.
 *
 * @example differenceText(3.16, 4.58, 'h') // → '+1.4'
 */
export function differenceText(
  from: Quantity,
  to: Quantity,
  unit: Unit,
  fineness: Fineness = 'estimate',
): string {
  if (fineness === 'exact' && typeof from === 'bigint' && typeof to === 'bigint') {
    return signed(moneyText(to - from, unit));
  }
  const read = (value: Quantity) =>
    Number(quantityText(value, unit, fineness).replaceAll(',', '').replace(minus, '-'));
  const difference = read(to) - read(from);
  const text = unit === 'h' ? hoursText(difference) : signedWhole(difference);
  return signed(text);
}

function signed(text: string): string {
  return text.startsWith(minus) ? text : `+${text}`;
}

function signedWhole(value: number): string {
  const text = Math.abs(value).toLocaleString('en-US', { maximumFractionDigits: 0 });
  return value < 0 ? minus + text : text;
}

/** Where a drawing runs from and to, in the unit of what it draws. */
export interface Scale {
  from: number;
  to: number;
}

/** A quantity as a plain number, for placing marks only; never for arithmetic on money. */
export function position(value: Quantity): number {
  return Number(value);
}

/**
 * One scale for a column of drawings, from zero to a little past the largest value.
 *
 * @example commonScale([3.2, 4.6, 10]) // → { from: 0, to: 10.8 }
 */
export function commonScale(values: readonly Quantity[]): Scale {
  const largest = Math.max(0, ...values.map(position));
  return { from: 0, to: largest === 0 ? 1 : largest * 1.08 };
}

/**
 * A place on the scale in per cent, kept on the drawing.
 *
 * @example percent(2.5, { from: 0, to: 10 }) // → 25
 */
export function percent(value: Quantity, scale: Scale): number {
  const share = ((position(value) - scale.from) / (scale.to - scale.from)) * 100;
  return Math.min(100, Math.max(0, share));
}
