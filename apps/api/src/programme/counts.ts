import { type Counter, type CountHistory, type Counts, counters } from '@fairlead/airworthiness';
import { Refused } from '../errors.ts';

/** Of each what is given or known; null: it is not. */
export type GivenCounts = Record<Counter, number | null>;

/** A column a counter, under the name of what they are about: everyCycles, everyLandings, everyStarts. */
export type CountsUnder<Prefix extends string> = Record<
  `${Prefix}${Capitalize<Counter>}`,
  number | null
>;

export const noCounts: GivenCounts = { cycles: null, landings: null, starts: null };
export const countFacts = { cycles: true, landings: true, starts: true } as const;

const capital = { cycles: 'Cycles', landings: 'Landings', starts: 'Starts' } as const;

/** Counts as the columns of a row have them. */
export const countsUnder = <Prefix extends string>(
  prefix: Prefix,
  counts: GivenCounts,
): CountsUnder<Prefix> =>
  Object.fromEntries(
    counters.map((counter) => [`${prefix}${capital[counter]}`, counts[counter]]),
  ) as CountsUnder<Prefix>;

/** Counts from the columns of a row. */
export const countsFrom = <Prefix extends string>(
  prefix: Prefix,
  row: CountsUnder<Prefix>,
): GivenCounts =>
  eachCount((counter) => row[`${prefix}${capital[counter]}` as keyof CountsUnder<Prefix>]);

export const eachCount = <Value>(of: (counter: Counter) => Value): Record<Counter, Value> => ({
  cycles: of('cycles'),
  landings: of('landings'),
  starts: of('starts'),
});

/** What is known of them, as packages/airworthiness takes it. */
export const knownCounts = (counts: GivenCounts): Counts =>
  Object.fromEntries(
    counters.flatMap((counter) => (counts[counter] === null ? [] : [[counter, counts[counter]]])),
  );

/** As a page sends them: what it left out is not given. */
export const countsGiven = (
  input: Partial<Record<Counter, number | null | undefined>> | null | undefined,
): GivenCounts => eachCount((counter) => input?.[counter] ?? null);

const MOST = 1_000_000;

/** @throws Refused for what no aircraft counts */
export function refuseCounts(counts: GivenCounts, least: 0 | 1 = 0, prefix = ''): void {
  for (const counter of counters) {
    const value = counts[counter];
    if (value !== null && (!Number.isInteger(value) || value < least || value > MOST)) {
      const field = prefix === '' ? counter : `${prefix}${capital[counter]}`;
      throw new Refused('BAD_INPUT', `${field} is ${value}: needed is ${least} to ${MOST}.`, field);
    }
  }
}

interface CountedReading extends GivenCounts {
  tisHundredths: number;
}

/** What an aircraft counted last of each, and its time in service then. */
export interface Counted {
  counts: GivenCounts;
  at: Record<Counter, number | null>;
}

/** @param readings newest first */
export function countedLast(readings: readonly CountedReading[]): Counted {
  const newest = eachCount((counter) => readings.find((reading) => reading[counter] !== null));
  return {
    counts: eachCount((counter) => newest[counter]?.[counter] ?? null),
    at: eachCount((counter) => newest[counter]?.tisHundredths ?? null),
  };
}

/** A part with what it counted, wherever it was. */
export interface CountedPart extends GivenCounts {
  fittings: readonly (CountsUnder<'aircraft'> &
    CountsUnder<'removed'> & { aircraftId: string; removedAt: Date | null })[];
}

/** What a part counted, as packages/airworthiness takes it. */
export const countHistoryOf = (part: CountedPart, counter: Counter): CountHistory => ({
  recorded: part[counter],
  stays: part.fittings.map((stay) => ({
    aircraftId: stay.aircraftId,
    fittedAt: countsFrom('aircraft', stay)[counter],
    removedAt: countsFrom('removed', stay)[counter],
    removed: stay.removedAt !== null,
  })),
});

/** "5210 landings, 2310 starts"; what is not known is left out. */
export const countsInWords = (counts: GivenCounts): string[] =>
  counters.flatMap((counter) => (counts[counter] === null ? [] : `${counts[counter]} ${counter}`));
