import {
  type Due,
  type DueState,
  hundredths,
  type ProjectedDay,
  projectedDay,
  standOf,
  useOfAircraft,
} from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { type DueRow, dayOf, dueFacts, ended, termsOf } from './due-terms.ts';

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
const SOON = { hours: hundredths(10_00), days: 30 };

/** What falls due on an aircraft, or on all of the shop's, most pressing first. Two statements for however many. */
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
        orderBy: { readAt: 'desc' },
        take: 200,
        select: { readAt: true, tisHundredths: true },
      },
      dueItems: { orderBy: [{ title: 'asc' }, { id: 'asc' }], select: dueFacts },
    },
  });
  const date = dayOf(today);
  const soon = { hours: hundredths(hours), days };
  return aircraft.map(({ id, registration, readings, dueItems }) => {
    const tis = readings[0]?.tisHundredths ?? null;
    const use = useOfAircraft(
      readings.map(({ readAt, tisHundredths }) => ({
        date: Math.floor(readAt.getTime() / 86_400_000),
        tis: hundredths(tisHundredths),
      })),
      date,
    );
    const lines = dueItems
      .filter((row) => !ended(row))
      .map((row): DueLine => {
        const terms = termsOf(row);
        try {
          const due = standOf(terms, { date, tis: hundredths(tis ?? terms.last?.tis ?? 0) }, soon);
          if (tis === null && due.remaining.hours !== undefined)
            throw new RangeError(`No meter of ${registration} was read: enter a reading first`);
          const { hours: left } = due.remaining;
          return {
            row,
            due,
            problem: null,
            projected: use && left !== undefined ? projectedDay(use, left, date) : null,
          };
        } catch (error) {
          if (!(error instanceof RangeError)) throw error;
          const problem = error.message.replaceAll(JSON.stringify(row.id), `“${row.title}”`);
          return { row, due: null, problem, projected: null };
        }
      });
    const rank = ({ due }: DueLine) => (due ? urgency.indexOf(due.state) : -1);
    return {
      aircraftId: id,
      registration,
      tisHundredths: tis,
      lines: lines.toSorted((one, other) => rank(one) - rank(other) || nearer(one, other)),
    };
  });
}

const nearer = (one: DueLine, other: DueLine) => daysLeft(one) - daysLeft(other);
const daysLeft = ({ due, projected }: DueLine) =>
  Math.min(due?.due.date ?? Infinity, projected?.usual ?? Infinity, 1e9);
