import type { ChecklistEventKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { needState } from '../work/index.ts';
import { checklistFacts, checklistLines } from './checklist.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { itemOnVisit } from './item-on-visit.ts';

export interface InitialLineInput extends GivenEvent {
  itemId: string;
  /** Which line of its list, from 1. */
  line: number;
  kind: ChecklistEventKind;
}

/**
 * Initials under one line of an item's list, by whoever did what it says; or takes them back. There is no way to initial
 * several at once: each was done.
 */
export async function initialLine(context: Context, input: InitialLineInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const { line, kind } = input;
  const given = givenEvent(input, context);
  return context.write(async (tx) => {
    // load
    const action = kind === 'initialled' ? 'initialled line by line' : 'changed in its list';
    const item = await itemOnVisit(tx, input.itemId, action);
    const known = await tx.checklistEvent.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { byId: true },
    });
    const facts = await tx.workItem.findUniqueOrThrow({
      where: { id: item.id },
      select: checklistFacts,
    });
    // decide
    if (sentBefore(known, personId)) return item.id;
    const found = checklistLines(facts).find(({ number }) => number === line);
    if (!found)
      throw new Refused(
        'BAD_INPUT',
        `Line ${line} was given; the list of ${item.name.replace(/,$/, '')} has ${facts.checklist.length === 0 ? 'no lines' : `lines 1 to ${facts.checklist.length}`}.`,
        'line',
      );
    if ((kind === 'initialled') === (found.initialled !== null)) return item.id;
    await needState(tx, item, action, 'open', 'in_work', 'waiting');
    // save
    await tx.checklistEvent.create({
      data: { itemId: item.id, line, kind, byId: personId, ...given },
      select: { id: true },
    });
    return item.id;
  });
}
