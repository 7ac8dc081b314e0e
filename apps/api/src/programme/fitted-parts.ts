import {
  hundredths,
  type PartTimeAnswer,
  partCountNow,
  partTimeNow,
} from '@fairlead/airworthiness';
import type { Prisma, Tx } from '@fairlead/database';
import {
  countedLast,
  countFacts,
  countHistoryOf,
  eachCount,
  type GivenCounts,
  noCounts,
} from './counts.ts';
import { historyOf, partHistoryFacts } from './due-terms.ts';

/** A part with what its times follow from. */
export const partFacts = {
  ...partHistoryFacts,
  kind: true,
  sinceOverhaulHundredths: true,
  lifeLimitHundredths: true,
  dueItems: {
    where: { kind: 'overhaul' },
    select: {
      events: {
        where: { kind: { not: 'ended' }, partHundredths: { not: null } },
        orderBy: [{ doneOn: 'desc' }, { at: 'desc' }],
        take: 1,
        select: { doneOn: true, partHundredths: true },
      },
    },
  },
} satisfies Prisma.ComponentSelect;
export type PartRow = Prisma.ComponentGetPayload<{ select: typeof partFacts }>;

/** A part with its own times, hundredths of an hour. */
export interface PartTime {
  id: string;
  title: string;
  kind: PartRow['kind'];
  partNumber: string;
  serial: string;
  /** Null where it cannot be told; `problem` says why. */
  tisHundredths: number | null;
  problem: string | null;
  /** Null: no overhaul is known here. */
  sinceOverhaulHundredths: number | null;
  lifeLimitHundredths: number | null;
  /** Its own cycles, landings and starts; null where they are not known. */
  counts: GivenCounts;
}

/** The readings of an aircraft that its time and its counts follow from, newest first. */
export const readingFacts = {
  orderBy: [{ readAt: 'desc' }, { id: 'desc' }],
  take: 200,
  select: { tisHundredths: true, ...countFacts },
} satisfies Prisma.Aircraft$readingsArgs;
type ReadingRow = GivenCounts & { tisHundredths: number };

/** A part's times, by the readings of the aircraft that it is on, newest first; none: it is on none, or no meter was read. */
export function timesOf(row: PartRow, readings: readonly ReadingRow[]): PartTime {
  const { id, title, kind, partNumber, serial, lifeLimitHundredths } = row;
  const [newest] = readings;
  const now = partTimeNow(historyOf(row), newest ? hundredths(newest.tisHundredths) : null);
  const ofAircraft = newest ? countedLast(readings).counts : noCounts;
  return {
    ...{ id, title, kind, partNumber, serial, lifeLimitHundredths },
    tisHundredths: now.known ? now.time : null,
    problem: now.known ? null : now.sentence,
    sinceOverhaulHundredths: sinceOverhaul(row, now),
    counts: eachCount((counter) => partCountNow(countHistoryOf(row, counter), ofAircraft[counter])),
  };
}

function sinceOverhaul(row: PartRow, now: PartTimeAnswer): number | null {
  if (!now.known) return null;
  const overhauls = row.dueItems.flatMap(({ events }) => events);
  const newest = overhauls.toSorted((one, other) => Number(other.doneOn) - Number(one.doneOn))[0];
  if (newest?.partHundredths != null) return now.time - newest.partHundredths;
  return row.sinceOverhaulHundredths === null
    ? null
    : row.sinceOverhaulHundredths + now.time - row.tisHundredths;
}

/** A part as it is fitted to an aircraft. */
export interface FittedPart extends PartTime {
  position: string;
  fittedAt: Date;
  fittedTisHundredths: number;
  /** The part that carries it. */
  parentId: string | null;
}

/** What is fitted to an aircraft now, with the times of each part; parts that carry others first. */
export async function fittedParts(read: Tx, aircraftId: string): Promise<FittedPart[]> {
  const readings = await read.meterReading.findMany({ where: { aircraftId }, ...readingFacts });
  const fittings = await read.componentFitting.findMany({
    where: { aircraftId, removedAt: null },
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
    select: {
      ...{ position: true, fittedAt: true, aircraftTisHundredths: true, parentId: true },
      component: { select: partFacts },
    },
  });
  return fittings.map(({ component, aircraftTisHundredths, ...fitting }) => ({
    ...timesOf(component, readings),
    ...fitting,
    fittedTisHundredths: aircraftTisHundredths,
  }));
}
