import type { Tx } from '@fairlead/database';
import { dayBegins } from '../../civil-day.ts';
import { notFound, Refused } from '../../errors.ts';
import { sayDay } from '../../given.ts';

/** When something was fitted or came off: a day, and the aircraft's time in service then. */
export interface GivenMoment {
  /** Null: today. */
  on: Date | null;
  /** Null: as the aircraft's meter was read last. */
  tisHundredths: number | null;
}

export interface PartMoment {
  at: Date;
  tisHundredths: number;
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
  const [reading] = await tx.meterReading.findMany({
    where: { aircraftId: aircraft.id },
    orderBy: [{ readAt: 'desc' }, { id: 'desc' }],
    take: 1,
    select: { tisHundredths: true },
  });
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
  return {
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
