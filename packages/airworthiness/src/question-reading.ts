import type { CivilDay } from './due/civil-days.ts';
import type { UseOfAircraft } from './due/use-of-aircraft.ts';
import { formatHours, type TimeInService } from './hours.ts';

/** A meter as it was read, on a day. */
export interface ReadOn {
  readonly date: CivilDay;
  readonly reading: TimeInService;
}

/** More than this a day between two readings is questioned (common practice, no source). */
const MOST_A_DAY = 10_00;
/** So many times its busiest use is questioned too, from this on (common practice, no source). */
const BUSIER = 3;
const LEAST_JUMP = 20_00;

/**
 * Why a reading is questioned before it is taken: it goes backwards, it runs more than a day has hours for, or the aircraft
 * never flew like that. It may be right all the same: then somebody says why, by name.
 *
 * @param last the same meter, as it was read last
 * @param use how much the aircraft flies; null: not known
 * @returns null where nothing is odd
 * @example questionReading({ date: 0, reading: parseHours('1300') }, { date: 7, reading: parseHours('1299.5') }, null) // → 'goes backwards: 1299.50 h, and it read 1300.00 h before'
 */
export function questionReading(
  last: ReadOn,
  now: ReadOn,
  use: UseOfAircraft | null,
): string | null {
  const ran = now.reading - last.reading;
  const said = `${formatHours(now.reading)} h, and it read ${formatHours(last.reading)} h before`;
  if (ran < 0) return `goes backwards: ${said}`;
  const days = Math.max(1, now.date - last.date + 1);
  const within = `in ${days} ${days === 1 ? 'day' : 'days'}`;
  const hours = `${formatHours(ran as TimeInService)} h ${within}`;
  if (ran > days * 24_00) return `jumps: ${said}; ${hours} are more than the days have`;
  if (ran > days * MOST_A_DAY) return `jumps: ${said}; ${hours} are over 10 h a day`;
  if (use && ran > LEAST_JUMP && ran > BUSIER * use.most * days)
    return `jumps: ${said}; ${hours} are over three times its busiest use`;
  return null;
}
