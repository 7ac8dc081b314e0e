import { type Counter, type DueState, hundredths } from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { eachCount, type GivenCounts, noCounts, refuseCounts } from './counts.ts';
import { type DueLine, lineOf } from './due-line.ts';
import { dueListsOf, inOrder, SOON } from './due-list.ts';
import { countersAsked, dayOf } from './due-terms.ts';

/** A trip that is planned. Nothing of it is kept. */
export interface Trip {
  departOn: Date;
  returnOn: Date;
  /** Hours that will be flown until the return, hundredths. */
  hundredths: number;
  /** What will be counted until then; null: nobody said, and what counts it cannot be reckoned. */
  counts: GivenCounts;
}

/** Something that falls due before a trip is over. */
export interface TripLine {
  /** As the aircraft would stand at the return. */
  line: DueLine;
  /** As it stands today. */
  now: DueState | null;
  /** By the calendar it is due before the aircraft even leaves. */
  beforeDeparture: boolean;
}

const MOST_DAYS = 1100;

function refuseTrip({ departOn, returnOn, hundredths: hours, counts }: Trip, today: Date): void {
  if (departOn < today)
    throw new Refused(
      'BAD_INPUT',
      `The trip begins on ${sayDay(departOn)}: today is ${sayDay(today)}; needed is a day to come.`,
      'departOn',
    );
  refuseCounts(counts);
  const days = dayOf(returnOn) - dayOf(departOn) + 1;
  if (days < 1 || days > MOST_DAYS)
    throw new Refused(
      'BAD_INPUT',
      `From ${sayDay(departOn)} to ${sayDay(returnOn)} was refused: needed are two days in order, at most three years apart.`,
      'returnOn',
    );
  if (hours < 0 || hours > days * 24_00)
    throw new Refused(
      'BAD_INPUT',
      `${hours / 100} h in ${days} ${days === 1 ? 'day' : 'days'} was refused: needed are 0 to ${days * 24} h.`,
      'hundredths',
    );
}

/**
 * What falls due before an aircraft is back: each item as it would stand on the day of the return, with the hours flown. What
 * cannot be reckoned is among it, since nobody knows that it holds.
 */
export async function dueOnTrip(
  read: Tx,
  aircraftId: string,
  trip: Trip,
  today: Date,
): Promise<TripLine[]> {
  refuseTrip(trip, today);
  const [list] = await dueListsOf(read, aircraftId, today);
  if (!list) throw new Error('an aircraft that was read has its list');
  const { registration, tisHundredths, counted } = list;
  const there = (date: Date, flown: number, more: GivenCounts) => ({
    ...{ registration, use: null, useOf: () => null, date: dayOf(date) },
    counted: {
      counts: eachCount((counter) => plus(counted.counts[counter], more[counter])),
      at: noCounts,
    },
    tis: tisHundredths === null ? null : hundredths(tisHundredths + flown),
  });
  const none = eachCount(() => 0);
  // Who flies nowhere lands nowhere.
  const said =
    trip.hundredths === 0 ? eachCount((counter) => trip.counts[counter] ?? 0) : trip.counts;
  const soon = SOON;
  const before = new Map(list.lines.map((line) => [line.row.id, line]));
  const back = list.lines.map(({ row }) =>
    unsaid(lineOf(row, there(trip.returnOn, trip.hundredths, said), soon), counted.counts, said),
  );
  return inOrder(back)
    .filter(({ due }) => due === null || !['ok', 'due_soon'].includes(due.state))
    .map((line) => {
      const leaving = lineOf(line.row, there(trip.departOn, 0, none), soon);
      return {
        line,
        now: before.get(line.row.id)?.due?.state ?? null,
        beforeDeparture: leaving.due?.state === 'overdue',
      };
    });
}

const plus = (known: number | null, more: number | null) =>
  known === null || more === null ? null : known + more;

/** What the aircraft has counted and nobody said of the trip is asked for, in place of what it was never counted. */
function unsaid(line: DueLine, known: GivenCounts, said: GivenCounts): DueLine {
  const asked = countersAsked(line.row).filter(
    (counter: Counter) => known[counter] !== null && said[counter] === null,
  );
  if (line.due !== null || asked.length === 0) return line;
  const problem = `“${line.row.title}” counts ${asked.join(' and ')}: say how many there will be until the return`;
  return { ...line, problem };
}
