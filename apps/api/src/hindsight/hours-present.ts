import { Temporal } from 'temporal-polyfill';
import { presentOn, type Week } from '../people/queries.ts';

/** An unbroken time on one item that began on one day of the shop and ended on another. */
export interface NightStretch {
  personId: string;
  startedAt: Date;
  endedAt: Date;
}

const HOUR = 3_600_000;
/** A clock that ran longer than this was not being looked at; the rest of it is nobody's presence. */
const MOST_DAYS = 400;

/**
 * Hours of a stretch over midnight in which its person was in: on each day from when they come until they go, as their
 * week and its exceptions say, and besides from when they started the clock and until they stopped it, since then they were
 * there. A clock that was left running gathers the hours between.
 *
 * Null: nothing says when they are in.
 */
export function hoursPresent(
  { startedAt, endedAt }: NightStretch,
  { person, shop, timeZone }: { person: Week; shop: Week; timeZone: string },
): number | null {
  if (person.week.length === 0 && shop.week.length === 0) return null;
  const zoned = (instant: Date) =>
    Temporal.Instant.fromEpochMilliseconds(instant.getTime()).toZonedDateTimeISO(timeZone);
  const first = zoned(startedAt).toPlainDate();
  const last = zoned(endedAt).toPlainDate();
  const [from, to] = [startedAt.getTime(), endedAt.getTime()];
  let sum = 0;
  for (
    let day = first, count = 0;
    Temporal.PlainDate.compare(day, last) <= 0 && count < MOST_DAYS;
    count += 1
  ) {
    const midnight = day.toZonedDateTime({ timeZone });
    const pieces = presentOn(new Date(`${day.toString()}T00:00:00Z`), person, shop);
    const at = (minute: number) => midnight.add({ minutes: minute }).epochMilliseconds;
    const moments = [
      ...pieces.flatMap(({ fromMinute, toMinute }) => [at(fromMinute), at(toMinute)]),
      ...(day.equals(first) ? [from] : []),
      ...(day.equals(last) ? [to] : []),
    ];
    if (moments.length > 0) {
      const came = Math.max(from, Math.min(...moments));
      const went = Math.min(to, Math.max(...moments));
      sum += Math.max(0, went - came);
    }
    day = day.add({ days: 1 });
  }
  return sum / HOUR;
}
