import {
  type Counter,
  hundredths,
  type UseOfAircraft,
  useOfAircraft,
} from '@fairlead/airworthiness';
import type { Meter, Prisma, Tx } from '@fairlead/database';
import { civilDay, dayBegins } from '../../civil-day.ts';
import { notFound } from '../../errors.ts';
import { holdFor } from '../../hold.ts';
import { countFacts, eachCount } from '../counts.ts';
import { dayOf } from '../due-terms.ts';

const facts = {
  ...{ meter: true, readingHundredths: true, tisHundredths: true, readAt: true, source: true },
  ...countFacts,
} satisfies Prisma.MeterReadingSelect;
type Reading = Prisma.MeterReadingGetPayload<{ select: typeof facts }>;

export interface KnownReadings {
  registration: string;
  /** The newest of each meter. */
  last: ReadonlyMap<Meter, Reading>;
  /** The newest of all. */
  newest: Reading | null;
  use: UseOfAircraft | null;
  /** The newest reading at which each was counted. */
  counted: Record<Counter, Reading | null>;
  countUse: Record<Counter, UseOfAircraft | null>;
  today: Date;
  /** The civil day of an instant where the shop is. */
  dayOn: (instant: Date) => Date;
  /** The last moment of a day where the shop is. */
  endOf: (day: Date) => Date;
}

/** An aircraft's readings, held against whoever else enters one. */
export async function readingsForChange(
  tx: Tx,
  aircraftId: string,
  now: Date,
): Promise<KnownReadings> {
  await holdFor(tx, 'aircraft', aircraftId);
  const aircraft = await tx.aircraft.findUnique({
    where: { id: aircraftId },
    select: {
      registration: true,
      readings: { orderBy: [{ readAt: 'desc' }, { id: 'desc' }], take: 200, select: facts },
    },
  });
  if (!aircraft) throw notFound('aircraft');
  const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
  const last = new Map<Meter, Reading>();
  for (const reading of aircraft.readings)
    if (!last.has(reading.meter)) last.set(reading.meter, reading);
  const today = civilDay(now, timeZone);
  const useBy = (of: (reading: Reading) => number | null) =>
    useOfAircraft(
      aircraft.readings.flatMap((reading) => {
        const tis = of(reading);
        return tis === null ? [] : [{ date: dayOf(civilDay(reading.readAt, timeZone)), tis }];
      }),
      dayOf(today),
    );
  return {
    registration: aircraft.registration,
    last,
    newest: aircraft.readings[0] ?? null,
    use: useBy(({ tisHundredths }) => hundredths(tisHundredths)),
    counted: eachCount(
      (counter) => aircraft.readings.find((reading) => reading[counter] !== null) ?? null,
    ),
    countUse: eachCount((counter) => useBy((reading) => reading[counter])),
    today,
    dayOn: (instant) => civilDay(instant, timeZone),
    endOf: (day) => new Date(dayBegins(day, timeZone, 1).getTime() - 1),
  };
}
