/** A civil day of the shop, ISO 8601: '2026-12-01'. */
export type CivilDay = string;

const DAY = 86_400_000;
const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Midnight UTC of a civil day, milliseconds: civil days have no change of clocks. */
function midnight(day: CivilDay): number {
  const at = /^\d{4}-\d\d-\d\d$/.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN;
  if (Number.isNaN(at) || new Date(at).toISOString().slice(0, 10) !== day)
    throw new RangeError(`"${day}" is no civil day: give one like 2026-12-01`);
  return at;
}

/**
 * Days from one civil day to another; negative where the other is earlier.
 *
 * @throws RangeError for what is no civil day
 * @example daysBetween('2026-02-27', '2026-03-02') // → 3
 */
export const daysBetween = (from: CivilDay, to: CivilDay): number =>
  Math.round((midnight(to) - midnight(from)) / DAY);

/**
 * The civil day so many days on.
 *
 * @throws RangeError for what is no civil day
 * @example dayAfter('2026-12-31', 1) // → '2027-01-01'
 */
export const dayAfter = (day: CivilDay, days: number): CivilDay =>
  new Date(midnight(day) + days * DAY).toISOString().slice(0, 10);

/**
 * A civil day as one says it, with the year only where it is another than the day it is said from.
 *
 * @throws RangeError for what is no civil day
 * @example sayCivilDay('2026-12-01', '2026-11-25') // → 'Tue 1 Dec'
 */
export function sayCivilDay(day: CivilDay, from: CivilDay): string {
  const date = new Date(midnight(day));
  const year = day.slice(0, 4) === from.slice(0, 4) ? '' : ` ${day.slice(0, 4)}`;
  return `${weekdays[date.getUTCDay()]} ${date.getUTCDate()} ${months[date.getUTCMonth()]}${year}`;
}
