import {
  type Counter,
  counters,
  type DueItem,
  hundredths,
  type PartHistory,
  partCountAt,
  partTimeAt,
  type TimeInService,
} from '@fairlead/airworthiness';
import type { Prisma } from '@fairlead/database';
import {
  type CountsUnder,
  countFacts,
  countHistoryOf,
  countsFrom,
  eachCount,
  type GivenCounts,
  knownCounts,
} from './counts.ts';

/** Where a part was, in order. */
export const partHistoryFacts = {
  id: true,
  title: true,
  partNumber: true,
  serial: true,
  tisHundredths: true,
  ...countFacts,
  fittings: {
    orderBy: [{ fittedAt: 'asc' }, { id: 'asc' }],
    select: {
      ...{ aircraftId: true, removedAt: true },
      ...{ aircraftTisHundredths: true, removedTisHundredths: true },
      ...{ aircraftCycles: true, aircraftLandings: true, aircraftStarts: true },
      ...{ removedCycles: true, removedLandings: true, removedStarts: true },
    },
  },
} satisfies Prisma.ComponentSelect;
export type PartOfDue = Prisma.ComponentGetPayload<{ select: typeof partHistoryFacts }>;

/** A due item with what its stand follows from. */
export const dueFacts = {
  id: true,
  aircraftId: true,
  kind: true,
  title: true,
  number: true,
  revision: true,
  source: true,
  rule: true,
  everyHundredths: true,
  everyMonths: true,
  everyCalendarMonths: true,
  everyDays: true,
  ...{ everyCycles: true, everyLandings: true, everyStarts: true },
  ...{ limitCycles: true, limitLandings: true, limitStarts: true },
  limitHundredths: true,
  limitDate: true,
  whicheverLast: true,
  taskId: true,
  task: { select: { openingId: true } },
  directiveId: true,
  component: { select: partHistoryFacts },
  events: {
    orderBy: [{ doneOn: 'desc' }, { at: 'desc' }],
    select: {
      kind: true,
      doneOn: true,
      tisHundredths: true,
      partHundredths: true,
      dueAtHundredths: true,
      ...countFacts,
      ...{ partCycles: true, partLandings: true, partStarts: true },
      method: true,
      by: { select: { name: true } },
    },
  },
} satisfies Prisma.DueItemSelect;

export type DueRow = Prisma.DueItemGetPayload<{ select: typeof dueFacts }>;

const DAY = 86_400_000;
/** A civil day as a whole number, from midnight UTC of it. */
export const dayOf = (date: Date): number => Math.round(date.getTime() / DAY);
export const dateOf = (day: number): Date => new Date(day * DAY);

/** The newest compliance; null before the first. */
export const lastOf = ({ events }: Pick<DueRow, 'events'>) =>
  events.find(({ kind }) => kind !== 'ended') ?? null;

/** Whether it falls due no more. */
export const ended = ({ events }: { events: readonly Pick<DueRow['events'][number], 'kind'>[] }) =>
  events.some(({ kind }) => kind !== 'complied');

/** What a part ran, as packages/airworthiness takes it. */
export const historyOf = ({ tisHundredths, fittings }: PartOfDue): PartHistory => ({
  recorded: hundredths(tisHundredths),
  fittings: fittings.map((fitting) => ({
    aircraftId: fitting.aircraftId,
    fittedAt: hundredths(fitting.aircraftTisHundredths),
    removedAt:
      fitting.removedTisHundredths === null ? null : hundredths(fitting.removedTisHundredths),
    removed: fitting.removedAt !== null,
  })),
});

/** The aircraft that a part is on now; null on the shelf. */
export const aircraftOf = ({ fittings }: Pick<PartOfDue, 'fittings'>): string | null =>
  fittings.find(({ removedAt }) => removedAt === null)?.aircraftId ?? null;

/** Which counts an item is due by. */
export const countersAsked = (row: CountsUnder<'every'> & CountsUnder<'limit'>): Counter[] =>
  counters.filter(
    (counter) => countsFrom('every', row)[counter] ?? countsFrom('limit', row)[counter],
  );

type Last = NonNullable<ReturnType<typeof lastOf>>;

/**
 * The time at which something was last complied with: of a part its own, which goes with it, else the aircraft's.
 */
function lastTime({ component, aircraftId }: DueRow, last: Last): TimeInService | null {
  if (!component) return last.tisHundredths === null ? null : hundredths(last.tisHundredths);
  if (last.partHundredths !== null) return hundredths(last.partHundredths);
  return last.tisHundredths === null
    ? null
    : partTimeAt(historyOf(component), aircraftId, hundredths(last.tisHundredths));
}

/** The counts at which something was last complied with: of a part its own. */
function lastCounts({ component, aircraftId }: DueRow, last: Last): GivenCounts {
  if (!component) return last;
  const own = countsFrom('part', last);
  return eachCount((counter) => {
    const then = last[counter];
    if (own[counter] !== null || then === null) return own[counter];
    return partCountAt(countHistoryOf(component, counter), aircraftId, then);
  });
}

/** The item as packages/airworthiness takes it: of a part, by the part's own hours and counts. */
export function termsOf(row: DueRow): DueItem {
  const last = lastOf(row);
  const tis = last && lastTime(row, last);
  const every = {
    ...(row.everyHundredths !== null && { hours: hundredths(row.everyHundredths) }),
    ...(row.everyMonths !== null && { months: row.everyMonths }),
    ...(row.everyCalendarMonths !== null && { calendarMonths: row.everyCalendarMonths }),
    ...(row.everyDays !== null && { days: row.everyDays }),
    ...knownCounts(countsFrom('every', row)),
  };
  // What a directive sets a limit to is its first time.
  const limited = row.directiveId === null || row.rule !== 'recurring' || last === null;
  const limit = limited && {
    ...(row.limitHundredths !== null && { hours: hundredths(row.limitHundredths) }),
    ...(row.limitDate !== null && { date: dayOf(row.limitDate) }),
    ...knownCounts(countsFrom('limit', row)),
  };
  const own = row.rule === 'recurring' || row.rule === 'calendar_months';
  // A life runs from when the part had no time on it, whatever was done to it since.
  const from = row.component && row.rule === 'life_limit' ? null : last;
  return {
    id: row.id,
    rule: row.rule,
    whichever: row.whicheverLast ? 'last' : 'first',
    enRoute: false,
    ...(own && Object.keys(every).length > 0 && { every }),
    ...(limit && Object.keys(limit).length > 0 && { limit }),
    ...(from && {
      last: {
        date: dayOf(from.doneOn),
        ...(tis !== null && { tis }),
        ...knownCounts(lastCounts(row, from)),
        ...(from.dueAtHundredths !== null &&
          row.component === null && { dueAtTis: hundredths(from.dueAtHundredths) }),
      },
    }),
  };
}
