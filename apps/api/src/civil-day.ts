import { Temporal } from 'temporal-polyfill';

/** The civil day of an instant in a time zone, as midnight UTC: the form in which dates are kept. */
export function civilDay(instant: Date, timeZone: string): Date {
  const day = Temporal.Instant.fromEpochMilliseconds(instant.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate();
  return new Date(`${day.toString()}T00:00:00Z`);
}

/**
 * The first moment of a civil day in a time zone, which is midnight but where clocks change then.
 *
 * @param day midnight UTC, as dates are kept
 * @param later that many days on
 */
export function dayBegins(day: Date, timeZone: string, later = 0): Date {
  const { epochMilliseconds } = Temporal.PlainDate.from(day.toISOString().slice(0, 10))
    .add({ days: later })
    .toZonedDateTime(timeZone);
  return new Date(epochMilliseconds);
}
