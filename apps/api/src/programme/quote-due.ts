import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { draftQuote, soldByTime } from '../quoting/index.ts';
import { dueOn } from './due-list.ts';
import { ended } from './due-terms.ts';

export interface QuoteDueInput {
  aircraftId: string;
  contactId: string;
  itemIds: readonly string[];
  packageId: string | null;
  clientEventId: string | null;
}

/**
 * Drafts one quote for what falls due: each item's task once, beside a package where one is named. What the tasks share,
 * such as one cowling taken off, is shared by the quote as for any tasks quoted together.
 */
export async function quoteDue(context: Context, input: QuoteDueInput): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const { aircraftId, contactId, itemIds, packageId, clientEventId } = input;
  if (itemIds.length === 0 || itemIds.length > 100)
    throw new Refused(
      'BAD_INPUT',
      `${itemIds.length} items were named: needed are 1 to 100.`,
      'itemIds',
    );
  const rows = await context.read.dueItem.findMany({
    where: { id: { in: [...itemIds] }, ...dueOn(aircraftId) },
    select: { id: true, title: true, taskId: true, events: { select: { kind: true } } },
  });
  if (rows.length === 0 || new Set(itemIds).size !== rows.length) throw notFound('due item');
  const without = rows.filter(({ taskId }) => taskId === null);
  if (without.length > 0)
    throw new Refused(
      'AGAINST_RULE',
      `Not quoted: ${without.map(({ title }) => `“${title}”`).join(', ')} ${without.length === 1 ? 'has' : 'have'} no task of the shop yet, so nobody knows the hours. Leave ${without.length === 1 ? 'it' : 'them'} out, or add the item anew with its task.`,
      'itemIds',
    );
  const over = rows.find((row) => ended(row));
  if (over) throw new Refused('CONFLICT', `“${over.title}” falls due no more.`, 'itemIds');
  const inPackage = packageId
    ? await context.read.packageTask.findMany({ where: { packageId }, select: { taskId: true } })
    : [];
  const there = new Set(inPackage.map(({ taskId }) => taskId));
  const tasks = [...new Set(rows.flatMap(({ taskId }) => taskId ?? []))].filter(
    (taskId) => !there.has(taskId),
  );
  return draftQuote(context, {
    ...{ aircraftId, contactId, packageId, findingId: null, clientEventId },
    tasks: tasks.map(soldByTime),
    parts: [],
    charges: [],
    title: packageId ? null : `Due: ${rows.map(({ title }) => title).join(', ')}`.slice(0, 200),
    expiresOn: null,
    terms: null,
  });
}
