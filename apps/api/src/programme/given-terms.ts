import type { DueRule } from '@fairlead/database';
import { Refused } from '../errors.ts';
import type { CountsUnder } from './counts.ts';
import { MOST_HUNDREDTHS } from './most-hours.ts';

/** By which rule something falls due, and how often or until when. */
export interface GivenTerms extends CountsUnder<'every'>, CountsUnder<'limit'> {
  rule: DueRule;
  everyHundredths: number | null;
  everyMonths: number | null;
  everyCalendarMonths: number | null;
  everyDays: number | null;
  limitHundredths: number | null;
  limitDate: Date | null;
  whicheverLast: boolean;
}

/** Unit and most of each: above it a figure was mistaken for another. */
const amounts = {
  everyHundredths: ['hundredths of an hour', MOST_HUNDREDTHS],
  everyMonths: ['months', 1200],
  everyCalendarMonths: ['calendar months', 1200],
  everyDays: ['days', 36_600],
  everyCycles: ['cycles', 1_000_000],
  everyLandings: ['landings', 1_000_000],
  everyStarts: ['starts', 1_000_000],
  limitHundredths: ['hundredths of an hour', MOST_HUNDREDTHS],
  limitCycles: ['cycles', 1_000_000],
  limitLandings: ['landings', 1_000_000],
  limitStarts: ['starts', 1_000_000],
} as const;
const limits = [
  'limitHundredths',
  'limitCycles',
  'limitLandings',
  'limitStarts',
  'limitDate',
] as const;

/** What each rule counts by, besides a limit; anything else given with it would silently count for nothing. */
const takes: Record<DueRule, readonly (keyof GivenTerms)[]> = {
  hundred_hour: [],
  annual: [],
  calendar_months: ['everyCalendarMonths'],
  recurring: [
    ...['everyHundredths', 'everyMonths', 'everyCalendarMonths', 'everyDays'],
    ...['everyCycles', 'everyLandings', 'everyStarts'],
    ...limits,
  ] as (keyof GivenTerms)[],
  life_limit: limits,
  once: limits,
};
const needs: Record<DueRule, string | null> = {
  hundred_hour: null,
  annual: null,
  calendar_months: 'how many calendar months',
  recurring: 'how often: hours, months, calendar months, days, cycles, landings or starts',
  life_limit: 'the limit: hours, cycles, landings, starts, a date, or several',
  once: 'not later than when: hours, cycles, landings, starts, a date, or several',
};

/**
 * Refuses terms that a rule has no use for, lacks, or that contradict each other.
 *
 * @throws Refused with the term, what was given and what is needed
 */
export function refuseTerms(input: GivenTerms): void {
  for (const [field, [unit, most]] of Object.entries(amounts)) {
    const value = input[field as keyof typeof amounts];
    if (value !== null && (!Number.isInteger(value) || value < 1 || value > most))
      throw new Refused(
        'BAD_INPUT',
        `${field} is ${value}: needed are 1 to ${most} ${unit}.`,
        field,
      );
  }
  const given = [...Object.keys(amounts), 'limitDate'].filter(
    (field) => input[field as keyof GivenTerms] !== null,
  ) as (keyof GivenTerms)[];
  const strange = given.find((field) => !takes[input.rule].includes(field));
  if (strange)
    throw new Refused(
      'BAD_INPUT',
      `${strange} was given with the rule ${input.rule}, which ${needs[input.rule] === null ? 'has its terms from the regulation' : `needs ${needs[input.rule]}`}: leave it out.`,
      strange,
    );
  const counted =
    input.rule === 'recurring' ? given.filter((field) => field.startsWith('every')) : given;
  if (needs[input.rule] !== null && counted.length === 0)
    throw new Refused('BAD_INPUT', `The rule ${input.rule} needs ${needs[input.rule]}.`, 'rule');
  if (!input.whicheverLast) return;
  if (counted.length < 2)
    throw new Refused(
      'BAD_INPUT',
      `whicheverLast was given with ${counted.length === 1 ? 'one term' : 'no terms'} only: it needs two that can come one after the other.`,
      'whicheverLast',
    );
  if (input.rule === 'recurring' && given.length > counted.length)
    throw new Refused(
      'BAD_INPUT',
      'The terms contradict each other: the interval that comes last counts, and a limit would count first. Give one of the two.',
      'whicheverLast',
    );
}
