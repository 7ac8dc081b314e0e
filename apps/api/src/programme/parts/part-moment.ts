import { counters } from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { dayBegins } from '../../civil-day.ts';
import { notFound, Refused } from '../../errors.ts';
import { sayDay } from '../../given.ts';
import { countedLast, eachCount, type GivenCounts, refuseCounts } from '../counts.ts';
import { readingFacts } from '../fitted-parts.ts';

/** When something was fitted or came off: a day, and the aircraft's time in service then. */
export interface GivenMoment {
  /** Null: today. */
  on: Date | null;
  /** Null: as the aircraft's meter was read last. */
  tisHundredths: number | null;
  /** The aircraft's counts then; null: as they were counted last. */
  counts: GivenCounts;
}

export interface PartMoment {
  at: Date;
  tisHundredths: number;
  counts: GivenCounts;
}

const hours = (value: number) => `${(value / 100).toFixed(1)} h`;

/**
 * The moment on an aircraft's own time.
 *
 * @throws Refused for a day to come, where no meter was read, and for hours that the aircraft has not flown
 */
export async function partMoment(
  tx: Tx,
  aircraft: { id: string; registration: string },
  given: GivenMoment,
  { now, today }: { now: Date; today: Date },
): Promise<PartMoment> {
  const { on, tisHundredths } = given;
  if (on && on > today)
    throw new Refused(
      'BAD_INPUT',
      `${sayDay(on)} was refused: today is ${sayDay(today)}, and what is not done yet cannot be entered.`,
      'on',
    );
  refuseCounts(given.counts);
  const readings = await tx.meterReading.findMany({
    where: { aircraftId: aircraft.id },
    ...readingFacts,
  });
  const [reading] = readings;
  if (!reading)
    throw new Refused(
      'AGAINST_RULE',
      `No meter of ${aircraft.registration} was read: enter a reading first, so that the part’s time can be told.`,
    );
  if (tisHundredths !== null && (tisHundredths < 0 || tisHundredths > reading.tisHundredths))
    throw new Refused(
      'BAD_INPUT',
      `${hours(tisHundredths)} was refused: ${aircraft.registration} stands at ${hours(reading.tisHundredths)} by its newest reading. Enter the meter reading first.`,
      'tisHundredths',
    );
  const { counts } = countedLast(readings);
  const asRead = tisHundredths === null || tisHundredths === reading.tisHundredths;
  for (const counter of counters) {
    const [then, now] = [given.counts[counter], counts[counter]];
    if (then !== null && then > (now ?? -1))
      throw new Refused(
        'BAD_INPUT',
        `${then} ${counter} were refused: the newest count of ${aircraft.registration} is ${now ?? 'none'}. Enter it with a meter reading first.`,
        counter,
      );
  }
  return {
    // At another time than the last reading's nobody knows them but who writes it down.
    counts: eachCount((counter) => given.counts[counter] ?? (asRead ? counts[counter] : null)),
    at: on && on < today ? await startOf(tx, on) : now,
    tisHundredths: tisHundredths ?? reading.tisHundredths,
  };
}

/** The first moment of a day where the shop is. */
async function startOf(tx: Tx, day: Date): Promise<Date> {
  const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
  return dayBegins(day, timeZone);
}

/** The aircraft, held to the end of the transaction. */
export async function aircraftNamed(tx: Tx, id: string) {
  const aircraft = await tx.aircraft.findUnique({
    where: { id },
    select: { id: true, registration: true },
  });
  if (!aircraft) throw notFound('aircraft');
  return aircraft;
}
