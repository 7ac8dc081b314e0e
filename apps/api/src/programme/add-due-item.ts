import type { DueKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { shopToday } from '../today.ts';
import { dayOf } from './due-terms.ts';
import { type GivenTerms, refuseTerms } from './given-terms.ts';

export interface AddDueItemInput extends GivenTerms {
  aircraftId: string;
  componentId: string | null;
  taskId: string | null;
  kind: DueKind;
  title: string;
  number: string | null;
  revision: string | null;
  source: string;
}

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
