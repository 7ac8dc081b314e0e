import type { DueKind, DueRule } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { shopToday } from '../today.ts';
import { dayOf } from './due-terms.ts';

export interface AddDueItemInput {
  aircraftId: string;
  componentId: string | null;
  taskId: string | null;
  kind: DueKind;
  title: string;
  number: string | null;
  revision: string | null;
  source: string;
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
const takes: Record<DueRule, readonly (keyof AddDueItemInput)[]> = {
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

/** Adds something that falls due on an aircraft. Its terms are never changed: other terms are a new item. */
export async function addDueItem(context: Context, input: AddDueItemInput): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'front_desk', 'manager');
  const title = givenText(input.title, 'title', { least: 2, most: 200 });
  const source = givenText(input.source, 'source', { least: 2, most: 300 });
  const number = givenText(input.number, 'number', { most: 100 });
  const revision = givenText(input.revision, 'revision', { most: 100 });
  if (input.kind === 'directive' && number === '')
    throw new Refused(
      'BAD_INPUT',
      'A directive is named by its number and revision (14 CFR 91.417(a)(2)(v)): give its number.',
      'number',
    );
  refuseTerms(input);
  const today = await shopToday(context);
  return context.write(async (tx) => {
    const { aircraftId, componentId, taskId } = input;
    const aircraft = await tx.aircraft.findUnique({
      where: { id: aircraftId },
      select: { registration: true },
    });
    if (!aircraft) throw notFound('aircraft');
    if (componentId) {
      const fitted = await tx.componentFitting.findFirst({
        where: { componentId, aircraftId, removedAt: null },
        select: { id: true },
      });
      if (!fitted)
        throw new Refused(
          'AGAINST_RULE',
          `That part is not fitted to ${aircraft.registration}: what falls due on it is kept where it is.`,
          'componentId',
        );
    }
    if (taskId && !(await tx.task.findUnique({ where: { id: taskId }, select: { id: true } })))
      throw notFound('task');
    if (input.limitDate && dayOf(input.limitDate) < dayOf(today) - 100 * 366)
      throw new Refused('BAD_INPUT', 'The limit lies more than a hundred years back.', 'limitDate');
    const { id } = await tx.dueItem.create({
      data: {
        ...input,
        title,
        source,
        number,
        revision,
        addedById: personId,
        addedAt: context.now(),
      },
      select: { id: true },
    });
    return id;
  });
}

function refuseTerms(input: AddDueItemInput): void {
  for (const [field, unit] of Object.entries(amounts)) {
    const value = input[field as keyof typeof amounts];
    if (value !== null && (!Number.isInteger(value) || value < 1 || value > MOST * 100))
      throw new Refused('BAD_INPUT', `${field} is ${value}: needed are 1 or more ${unit}.`, field);
  }
  const given = [...Object.keys(amounts), 'limitDate'].filter(
    (field) => input[field as keyof AddDueItemInput] !== null,
  ) as (keyof AddDueItemInput)[];
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
}
