/** U+2212, as wide as a plus: a hyphen would shift the column. */
export const minus = '\u2212';

/**
 * Hours in tenths, as labour is billed.
 *
 * @param hours finite labour-hours; NaN and infinities throw RangeError
 * @param places decimals shown, 1 unless a finer reading is asked for
 * @example hoursText(3.16) // → '3.2'
 */
export function hoursText(hours: number, places = 1): string {
  if (!Number.isFinite(hours)) {
    throw new RangeError(`Cannot write hours: got ${hours}, need a finite number`);
  }
  const text = Math.abs(hours).toFixed(places);
  const grouped = groupThousands(text);
  return hours < 0 && Number(text) !== 0 ? minus + grouped : grouped;
}

/**
 * A running clock, hours and minutes, never rounded up.
 *
 * @param seconds elapsed, zero or more; less than zero throws RangeError
 * @example clockText(3 * 3600 + 7 * 60 + 59) // → '3:07'
 */
export function clockText(seconds: number): string {
  if (!(seconds >= 0)) {
    throw new RangeError(`Cannot write a clock: got ${seconds} s, need zero or more`);
  }
  const minutes = Math.floor(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}

/**
 * Commas between thousands of a plain decimal text.
 *
 * @example groupThousands('1240.50') // → '1,240.50'
 */
export function groupThousands(text: string): string {
  const [whole = '', fraction] = text.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return fraction === undefined ? grouped : `${grouped}.${fraction}`;
}
