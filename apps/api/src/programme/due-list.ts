import {
  type Due,
  type DueState,
  formatHours,
  hundredths,
  type ProjectedDay,
  partTimeNow,
  projectedDay,
  type Soon,
  standOf,
  type TimeInService,
  type UseOfAircraft,
  useOfAircraft,
} from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { aircraftOf, type DueRow, dayOf, dueFacts, historyOf, termsOf } from './due-terms.ts';

export interface DueLine {
  row: DueRow;
  /** Null where it cannot be said; `problem` says why. */
  due: Due | null;
  problem: string | null;
  projected: ProjectedDay | null;
}

export interface DueList {
  aircraftId: string;
  registration: string;
  /** Newest time in service, hundredths of an hour; null: no meter was read. */
  tisHundredths: number | null;
  lines: DueLine[];
}

const urgency: DueState[] = ['overdue', 'due', 'within_allowance', 'due_soon', 'ok'];
export const SOON = { hours: hundredths(10_00), days: 30 };

/**
 * What falls due on an aircraft, or on all of the shop's, most pressing first. Two statements for however many. What is about
 * a part is on the aircraft to which the part is fitted now.
 */
export async function dueListsOf(
  read: Tx,
  aircraftId: string | null,
  today: Date,
  { hours = SOON.hours as number, days = SOON.days } = {},
): Promise<DueList[]> {
  const aircraft = await read.aircraft.findMany({
    where: aircraftId === null ? {} : { id: aircraftId },
    orderBy: { registration: 'asc' },
    select: {
      id: true,
      registration: true,
      readings: {
        orderBy: [{ readAt: 'desc' }, { id: 'desc' }],
        take: 200,
        select: { readAt: true, tisHundredths: true },
      },
    },
  });
  const rows = await read.dueItem.findMany({
    where: {
      events: { none: { kind: { not: 'complied' } } },
      ...(aircraftId !== null && dueOn(aircraftId)),
    },
    orderBy: [{ title: 'asc' }, { id: 'asc' }],
    select: dueFacts,
  });
  const at = new Map<string | null, DueRow[]>();
  for (const row of rows) {
    const where = row.component ? aircraftOf(row.component) : row.aircraftId;
    const there = at.get(where);
    if (there) there.push(row);
    else at.set(where, [row]);
  }
  const date = dayOf(today);
  const soon = { hours: hundredths(hours), days };
  return aircraft.map(({ id, registration, readings }) => {
    const tis = readings[0]?.tisHundredths ?? null;
    const use = useOfAircraft(
      readings.map(({ readAt, tisHundredths }) => ({
        date: Math.floor(readAt.getTime() / 86_400_000),
        tis: hundredths(tisHundredths),
      })),
      date,
    );
    const here = { registration, tis: tis === null ? null : hundredths(tis), date, use };
    return {
      aircraftId: id,
      registration,
      tisHundredths: tis,
      lines: inOrder((at.get(id) ?? []).map((row) => lineOf(row, here, soon))),
    };
  });
}

/** What is about the aircraft itself, or about a part that is fitted to it now. */
export const dueOn = (aircraftId: string) => ({
  OR: [
    { aircraftId, componentId: null },
    { component: { fittings: { some: { aircraftId, removedAt: null } } } },
  ],
});

/** Where an aircraft stands. */
export interface Whereabouts {
  registration: string;
  tis: TimeInService | null;
  date: number;
  use: UseOfAircraft | null;
}

/** How an aircraft stands against one item, said in the aircraft's hours. */
export function lineOf(row: DueRow, here: Whereabouts, soon: Soon): DueLine {
  const { tis, date, use, registration } = here;
  try {
    const terms = termsOf(row);
    const own = row.component ? partTimeNow(historyOf(row.component), tis) : null;
    const stands = own?.known ? own.time : own === null ? tis : null;
    const due = standOf(terms, { date, tis: hundredths(stands ?? terms.last?.tis ?? 0) }, soon);
    const { hours: left } = due.remaining;
    if (stands === null && left !== undefined)
      throw new RangeError(
        own && !own.known && tis !== null
          ? `“${row.title}”: ${own.sentence}`
          : `No meter of ${registration} was read: enter a reading first`,
      );
    return {
      row,
      due: own?.known && tis !== null ? inHoursOfAircraft(due, own.time, tis) : due,
      problem: null,
      projected: use && left !== undefined ? projectedDay(use, left, date) : null,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const problem = error.message.replaceAll(JSON.stringify(row.id), `“${row.title}”`);
    return { row, due: null, problem, projected: null };
  }
}

/** A part's due point by the meter that people read: the aircraft's. */
function inHoursOfAircraft(due: Due, own: TimeInService, tis: TimeInService): Due {
  if (due.due.tis === undefined || own === tis) return due;
  return {
    ...due,
    due: { ...due.due, tis: hundredths(Math.max(0, due.due.tis + tis - own)) },
    because: `${due.because}; by the part’s own hours, now ${formatHours(own)} h`,
  };
}

/** Most pressing first. */
export function inOrder(lines: readonly DueLine[]): DueLine[] {
  const rank = ({ due }: DueLine) => (due ? urgency.indexOf(due.state) : -1);
  return lines.toSorted((one, other) => rank(one) - rank(other) || nearer(one, other));
}

const nearer = (one: DueLine, other: DueLine) => daysLeft(one) - daysLeft(other);
const daysLeft = ({ due, projected }: DueLine) =>
  Math.min(due?.due.date ?? Infinity, projected?.usual ?? Infinity, 1e9);
