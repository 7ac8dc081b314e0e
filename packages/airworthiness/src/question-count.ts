import type { CivilDay } from './due/civil-days.ts';
import type { Counter } from './due/due-item.ts';
import type { UseOfAircraft } from './due/use-of-aircraft.ts';

/** A count as somebody entered it, on a day. */
export interface CountedOn {
  readonly date: CivilDay;
  readonly count: number;
}

/** More than this a day between two counts is questioned: a day of circuits has fewer (common practice, no source). */
const MOST_A_DAY = 60;
/** So many times its busiest use is questioned too, from this on (common practice, no source). */
const BUSIER = 3;
const LEAST_JUMP = 60;

/**
 * Why a count of landings, starts or cycles is questioned before it is taken, as `questionReading` does for a meter: it goes
 * backwards, or runs on faster than a day allows or the aircraft ever did.
 *
 * @param use how many a day; null: not known
 * @returns null where nothing is odd
 * @example questionCount('landings', { date: 0, count: 5210 }, { date: 7, count: 5120 }, null) // → 'of landings goes backwards: 5120, and it was 5210 before'
 */
export function questionCount(
  counter: Counter,
  last: CountedOn,
  now: CountedOn,
  use: UseOfAircraft | null,
): string | null {
  const more = now.count - last.count;
  const said = `${now.count}, and it was ${last.count} before`;
  if (more < 0) return `of ${counter} goes backwards: ${said}`;
  const days = Math.max(1, now.date - last.date + 1);
  const jump = `of ${counter} jumps: ${said}; ${more} in ${days} ${days === 1 ? 'day' : 'days'} are over`;
  if (more > days * MOST_A_DAY) return `${jump} ${MOST_A_DAY} a day`;
  if (use && more > LEAST_JUMP && more > BUSIER * use.most * days)
    return `${jump} three times its busiest use`;
  return null;
}
