import { type Counter, type DueState, hundredths, useOfAircraft } from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { type Counted, countedLast, countFacts } from './counts.ts';
import { type DueLine, lineOf, type Whereabouts } from './due-line.ts';
import { aircraftOf, type DueRow, dayOf, dueFacts } from './due-terms.ts';

export interface DueList {
  aircraftId: string;
  registration: string;
  /** Newest time in service, hundredths of an hour; null: no meter was read. */
  tisHundredths: number | null;
  counted: Counted;
  lines: DueLine[];
}

const urgency: DueState[] = ['overdue', 'due', 'within_allowance', 'due_soon', 'ok'];
/** Of cycles, landings and starts 20 each, about a day of circuits (common practice, no source). */
export const SOON = { hours: hundredths(10_00), days: 30, counts: 20 };

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
        select: { readAt: true, tisHundredths: true, ...countFacts },
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
  const soon = { hours: hundredths(hours), days, counts: SOON.counts };
  return aircraft.map(({ id, registration, readings }) => {
    const here = whereabouts(registration, readings, dayOf(today));
    return {
      aircraftId: id,
      registration,
      tisHundredths: here.tis,
      counted: here.counted,
      lines: inOrder((at.get(id) ?? []).map((row) => lineOf(row, here, soon))),
    };
  });
}

interface Reading extends Record<Counter, number | null> {
  readAt: Date;
  tisHundredths: number;
}

/** @param readings newest first */
function whereabouts(
  registration: string,
  readings: readonly Reading[],
  date: number,
): Whereabouts {
  const used = (of: (reading: Reading) => number | null) =>
    useOfAircraft(
      readings.flatMap((reading) => {
        const tis = of(reading);
        return tis === null ? [] : [{ date: Math.floor(reading.readAt.getTime() / DAY), tis }];
      }),
      date,
    );
  const tis = readings[0]?.tisHundredths ?? null;
  // Reckoned when something asks: most aircraft have nothing that counts cycles.
  const uses: Partial<Record<Counter, ReturnType<typeof used>>> = {};
  return {
    ...{ registration, date, counted: countedLast(readings) },
    tis: tis === null ? null : hundredths(tis),
    use: used(({ tisHundredths }) => tisHundredths),
    useOf: (counter) => (uses[counter] ??= used((reading) => reading[counter])),
  };
}

const DAY = 86_400_000;

/** What is about the aircraft itself, or about a part that is fitted to it now. */
export const dueOn = (aircraftId: string) => ({
  OR: [
    { aircraftId, componentId: null },
    { component: { fittings: { some: { aircraftId, removedAt: null } } } },
  ],
});

/** Most pressing first. */
export function inOrder(lines: readonly DueLine[]): DueLine[] {
  const rank = ({ due }: DueLine) => (due ? urgency.indexOf(due.state) : -1);
  return lines.toSorted((one, other) => rank(one) - rank(other) || nearer(one, other));
}

const nearer = (one: DueLine, other: DueLine) => daysLeft(one) - daysLeft(other);
const daysLeft = ({ due, projected }: DueLine) =>
  Math.min(due?.due.date ?? Infinity, projected?.usual ?? Infinity, 1e9);
