import {
  type Counter,
  counters,
  type Due,
  type DueItem,
  type DueRule,
  formatHours,
  hundredths,
  type ProjectedDay,
  partCountNow,
  partTimeNow,
  projectedDay,
  projectedTogether,
  type Soon,
  standOf,
  type TimeInService,
  type UseOfAircraft,
} from '@fairlead/airworthiness';
import {
  type Counted,
  countHistoryOf,
  eachCount,
  type GivenCounts,
  knownCounts,
} from './counts.ts';
import { type DueRow, historyOf, termsOf } from './due-terms.ts';

export interface DueLine {
  row: DueRow;
  /** Null where it cannot be said; `problem` says why. */
  due: Due | null;
  problem: string | null;
  projected: ProjectedDay | null;
}

/** Where an aircraft stands. */
export interface Whereabouts {
  registration: string;
  tis: TimeInService | null;
  date: number;
  counted: Counted;
  /** Null: not known. */
  use: UseOfAircraft | null;
  useOf(counter: Counter): UseOfAircraft | null;
}

/** How an aircraft stands against one item, said in the aircraft's hours and counts. */
export function lineOf(row: DueRow, here: Whereabouts, soon: Soon): DueLine {
  const { tis, date, registration, counted } = here;
  try {
    const terms = termsOf(row);
    const own = row.component ? partTimeNow(historyOf(row.component), tis) : null;
    const stands = own?.known ? own.time : own === null ? tis : null;
    const counts = countsOf(row, terms, here);
    const at = { date, tis: hundredths(stands ?? terms.last?.tis ?? 0), ...knownCounts(counts) };
    const due = standOf(terms, at, soon);
    const { hours: left } = due.remaining;
    if (stands === null && left !== undefined)
      throw new RangeError(
        own && !own.known && tis !== null
          ? `“${row.title}”: ${own.sentence}`
          : `No meter of ${registration} was read: enter a reading first`,
      );
    const said =
      own?.known && tis !== null ? byAircraft(due, own.time, tis, counts, counted.counts) : due;
    return {
      row,
      due: { ...said, because: said.because + sinceCounted(said, here) },
      problem: null,
      projected: projectedTogether(projections(due, here), terms.whichever),
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const problem = error.message.replaceAll(JSON.stringify(row.id), `“${row.title}”`);
    return { row, due: null, problem, projected: null };
  }
}

const without: readonly DueRule[] = ['hundred_hour', 'annual', 'calendar_months'];

/** What the aircraft has counted, or a part its own; what an item counts has to be known. */
function countsOf(
  row: DueRow,
  terms: DueItem,
  { counted, registration }: Whereabouts,
): GivenCounts {
  const { component, title } = row;
  // Most items count none, and reckoning a part's own is not free.
  const counting = without.includes(terms.rule)
    ? []
    : counters.filter(
        (counter) => (terms.every?.[counter] ?? terms.limit?.[counter]) !== undefined,
      );
  if (counting.length === 0) return component ? eachCount(() => null) : counted.counts;
  const counts = component
    ? eachCount((counter) =>
        counting.includes(counter)
          ? partCountNow(countHistoryOf(component, counter), counted.counts[counter])
          : null,
      )
    : counted.counts;
  const unknown = counting.find((counter) => counts[counter] === null);
  if (unknown !== undefined && !(terms.rule === 'once' && terms.last))
    throw new RangeError(
      component && counted.counts[unknown] !== null
        ? `“${title}” counts ${unknown}, and how many ${component.title}, serial ${component.serial}, has is not known: they were not entered when it was recorded, fitted or taken off`
        : `“${title}” counts ${unknown}, and those of ${registration} were never entered: enter them with a meter reading`,
    );
  return counts;
}

/** A part's due point by what people read: the aircraft's meter and counts. */
function byAircraft(
  due: Due,
  own: TimeInService,
  tis: TimeInService,
  counts: GivenCounts,
  ofAircraft: GivenCounts,
): Due {
  const shifted: Partial<Record<Counter, number>> = {};
  const ownWords: string[] = [];
  if (due.due.tis !== undefined && own !== tis) ownWords.push(`${formatHours(own)} h`);
  for (const counter of counters) {
    const [point, mine, its] = [due.due[counter], counts[counter], ofAircraft[counter]];
    if (point === undefined || mine === null || its === null || mine === its) continue;
    shifted[counter] = Math.max(0, point + its - mine);
    ownWords.push(`${mine} ${counter}`);
  }
  if (ownWords.length === 0) return due;
  return {
    ...due,
    due: {
      ...due.due,
      ...shifted,
      ...(due.due.tis !== undefined && {
        tis: hundredths(Math.max(0, due.due.tis + tis - own)),
      }),
    },
    because: `${due.because}; by the part’s own ${due.due.tis === undefined ? 'count' : 'hours'}, now ${ownWords.join(', ')}`,
  };
}

/** Hours flown since something was counted are landings that nobody counted. */
function sinceCounted({ due }: Due, { tis, counted }: Whereabouts): string {
  return counters
    .map((counter) => {
      const then = counted.at[counter];
      if (due[counter] === undefined || then === null || tis === null || tis <= then) return '';
      return `; ${counter} were last counted ${formatHours(hundredths(tis - then))} h ago, what came since is not in it`;
    })
    .join('');
}

/** By its own use, for each of hours and counts that is known. */
function projections({ remaining }: Due, { date, use, useOf }: Whereabouts): ProjectedDay[] {
  const { hours } = remaining;
  const days = hours === undefined || use === null ? [] : [projectedDay(use, hours, date)];
  for (const counter of counters) {
    const left = remaining[counter];
    const used = left === undefined ? null : useOf(counter);
    if (left !== undefined && used) days.push(projectedDay(used, left, date));
  }
  return days;
}
