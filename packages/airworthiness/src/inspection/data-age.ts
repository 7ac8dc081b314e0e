import { type CivilDay, plusMonths, writeDay } from '../due/civil-days.ts';
import { DATA_OLD_AFTER_MONTHS } from './starter-packages.ts';

/**
 * Whether somebody should look whether the data that a list was made from still hold.
 *
 * @param on the data's own date; null: nobody said
 * @returns one sentence; null where there is nothing to say
 * @example oldData({ from: 'Manual, revision 7', on: readDay('2029-05-01'), today: readDay('2031-05-06') })
 * // → 'Made from Manual, revision 7, of 2029-05-01: over 12 months ago. See whether it is still the current one.'
 */
export function oldData({
  from,
  on,
  today,
}: {
  from: string;
  on: CivilDay | null;
  today: CivilDay;
}): string | null {
  if (from === '') return 'Nobody has said what data it was made from.';
  if (on === null) return `Made from ${from}: nobody has said of which date that is.`;
  if (plusMonths(on, DATA_OLD_AFTER_MONTHS) >= today) return null;
  return `Made from ${from}, of ${writeDay(on)}: over ${DATA_OLD_AFTER_MONTHS} months ago. See whether it is still the current one.`;
}
