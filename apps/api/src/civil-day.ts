import { Temporal } from 'temporal-polyfill';

/** The civil day of an instant in a time zone, as midnight UTC: the form in which dates are kept. */
export function civilDay(instant: Date, timeZone: string): Date {
  const day = Temporal.Instant.fromEpochMilliseconds(instant.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate();
  return new Date(`${day.toString()}T00:00:00Z`);
}
