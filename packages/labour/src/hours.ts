declare const hoursBrand: unique symbol;

/** Labour-hours: a finite number above zero that says its unit in its type. */
export type Hours = number & { readonly [hoursBrand]: 'Hours' };

/**
 * Labour-hours from a plain number: the one place where a number becomes hours.
 *
 * @param value labour-hours, finite and above 0
 * @throws RangeError for zero, a negative number, NaN or an infinity: none of them has a logarithm
 * @example hours(2.5) // 2.5
 */
export function hours(value: number): Hours {
  if (!Number.isFinite(value) || value <= 0) {
    throw new RangeError(`Hours must be a finite number above 0; got ${value}.`);
  }
  return value as Hours;
}

/** Hours as they are written in a sentence: two decimals and the unit. */
export const inHours = (value: number): string => `${value.toFixed(2)} h`;

/** A multiplier as it is written in a sentence: "×1.41". */
export const inTimes = (factor: number): string => `×${factor.toFixed(2)}`;
