import type { DueRule } from '@fairlead/database';
import { Refused } from '../errors.ts';

/** By which rule something falls due, and how often or until when. */
export interface GivenTerms {
  rule: DueRule;
  everyHundredths: number | null;
  everyMonths: number | null;
  everyCalendarMonths: number | null;
  everyDays: number | null;
  limitHundredths: number | null;
  limitDate: Date | null;
  whicheverLast: boolean;
}

const MOST = 1_000_000;
const amounts = {
  everyHundredths: 'hundredths of an hour',
  everyMonths: 'months',
  everyCalendarMonths: 'calendar months',
  everyDays: 'days',
  limitHundredths: 'hundredths of an hour',
} as const;

/** What each rule counts by, besides a limit; anything else given with it would silently count for nothing. */
const takes: Record<DueRule, readonly (keyof GivenTerms)[]> = {
  hundred_hour: [],
  annual: [],
  calendar_months: ['everyCalendarMonths'],
  recurring: [
    'everyHundredths',
    'everyMonths',
    'everyCalendarMonths',
    'everyDays',
    'limitHundredths',
    'limitDate',
  ],
  life_limit: ['limitHundredths', 'limitDate'],
  once: ['limitHundredths', 'limitDate'],
};
const needs: Record<DueRule, string | null> = {
  hundred_hour: null,
  annual: null,
  calendar_months: 'how many calendar months',
  recurring: 'how often: hours, months, calendar months or days',
  life_limit: 'the limit: hours, a date, or both',
  once: 'not later than when: hours, a date, or both',
};

/**
 * Refuses terms that a rule has no use for, lacks, or that contradict each other.
 *
 * @throws Refused with the term, what was given and what is needed
 */
export function refuseTerms(input: GivenTerms): void {
  for (const [field, unit] of Object.entries(amounts)) {
    const value = input[field as keyof typeof amounts];
    if (value !== null && (!Number.isInteger(value) || value < 1 || value > MOST * 100))
      throw new Refused('BAD_INPUT', `${field} is ${value}: needed are 1 or more ${unit}.`, field);
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
