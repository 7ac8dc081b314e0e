import { Temporal } from 'temporal-polyfill';
import type { DemoTime } from '../../../../prisma/demo/data.ts';

/** When things of the demo happen: its files count days and times from its first day. */
export interface DemoClock {
  /** The instant; midnight where no time of day is given. */
  at(time: DemoTime): Date;
  /** The civil day, as midnight UTC: the form in which dates are kept. */
  day(time: DemoTime): Date;
}

/**
 * The demo's calendar. Day 0 is the civil day that it is in the shop when the demo is loaded.
 *
 * @param timeZone IANA name of the shop's zone
 * @example demoClock(new Date('2031-05-04T10:00:00Z'), 'UTC').at({ day: -1, time: '08:10' }) // → new Date('2031-05-03T08:10:00Z')
 */
export function demoClock(now: Date, timeZone: string): DemoClock {
  const first = Temporal.Instant.fromEpochMilliseconds(now.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate();
  const dayOf = ({ day }: DemoTime) => first.add({ days: day });
  return {
    at: (time) =>
      new Date(
        dayOf(time).toZonedDateTime({ timeZone, plainTime: time.time ?? '00:00' })
          .epochMilliseconds,
      ),
    day: (time) => new Date(`${dayOf(time).toString()}T00:00:00Z`),
  };
}
