import { Temporal } from 'temporal-polyfill';
import { type Piece, presentOn, type Week } from '../people/queries.ts';

/** When somebody is usually in, and in which zone. */
export interface Presence {
  person: Week;
  shop: Week;
  timeZone: string;
}

const MIDNIGHT = 24 * 60;

/**
 * When whoever began something would have gone: the end of their hours on that day; past midnight where their hours go on
 * there without a break. Begun outside of their hours, the end of the day.
 *
 * Null: nothing says when they are in.
 *
 * @example shiftEnd(new Date('2031-05-05T08:00:00Z'), { person: { week: [{ weekday: 1, fromMinute: 420, toMinute: 1020 }], exceptions: [] }, shop: { week: [], exceptions: [] }, timeZone: 'UTC' }) // → new Date('2031-05-05T17:00:00Z')
 */
export function shiftEnd(began: Date, { person, shop, timeZone }: Presence): Date | null {
  if (person.week.length === 0 && shop.week.length === 0) return null;
  const zoned = Temporal.Instant.fromEpochMilliseconds(began.getTime()).toZonedDateTimeISO(
    timeZone,
  );
  const day = zoned.toPlainDate();
  const piecesOf = (date: Temporal.PlainDate): Piece[] =>
    presentOn(new Date(`${date.toString()}T00:00:00Z`), person, shop);
  // By the clock on the wall, so that a day of 23 hours ends when its people go.
  const at = (date: Temporal.PlainDate, minute: number): Date =>
    new Date(
      date.add({ days: minute >= MIDNIGHT ? 1 : 0 }).toZonedDateTime({
        timeZone,
        plainTime: Temporal.PlainTime.from({
          hour: Math.floor((minute % MIDNIGHT) / 60),
          minute: minute % 60,
        }),
      }).epochMilliseconds,
    );
  const last = piecesOf(day).at(-1)?.toMinute ?? 0;
  if (at(day, last) <= began) return at(day, MIDNIGHT);
  const [next] = piecesOf(day.add({ days: 1 }));
  return last === MIDNIGHT && next?.fromMinute === 0
    ? at(day.add({ days: 1 }), next.toMinute)
    : at(day, last);
}
