import type { Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { shopToday } from '../today.ts';
import { deferredOf } from './deferred/deferred-of.ts';
import { dueListsOf, dueOn } from './due-list.ts';
import { ended } from './due-terms.ts';
import { inspectionOf, type QuotedAnyway, serves } from './inspection-package.ts';

/** What falls due and what was put off, to be quoted. */
export interface DueNamed {
  aircraftId: string;
  itemIds: readonly string[];
  /** Findings that were put off. */
  findingIds: readonly string[];
}

export interface TasksOfDue {
  /** The opening of each place before what lies behind it, each once. */
  taskIds: readonly string[];
  titles: readonly string[];
}

/**
 * The tasks by which what falls due and what was put off is quoted: each once, with what has to be opened for it, however
 * much is done behind it.
 *
 * @param there what is quoted anyway: its tasks do not come again, and the inspection that it is needs none
 */
export async function tasksOfDue(
  context: Context,
  named: DueNamed,
  there: QuotedAnyway,
): Promise<TasksOfDue> {
  const many = named.itemIds.length + named.findingIds.length;
  if (many === 0 || many > 100)
    throw new Refused('BAD_INPUT', `${many} items were named: needed are 1 to 100.`, 'itemIds');
  const rows = await itemsOf(context, named, there);
  const findings = await findingsOf(context, named);
  const wanted = [
    ...rows.flatMap(({ taskId }) => taskId ?? []),
    ...findings.flatMap(({ taskIds }) => taskIds),
  ];
  const behind = await context.read.task.findMany({
    where: { id: { in: wanted } },
    select: { openingId: true },
  });
  const openings = behind.flatMap(({ openingId }) => openingId ?? []);
  const quoted = new Set(there.taskIds);
  return {
    taskIds: [...new Set([...openings, ...wanted])].filter((taskId) => !quoted.has(taskId)),
    titles: [...rows, ...findings].map(({ title }) => title),
  };
}

/** The items, each with a task, or an inspection that the package is. */
async function itemsOf(
  { read }: Context,
  { itemIds, aircraftId }: DueNamed,
  { inspection }: QuotedAnyway,
) {
  const rows = await read.dueItem.findMany({
    where: { id: { in: [...itemIds] }, ...dueOn(aircraftId) },
    select: { id: true, title: true, rule: true, taskId: true, events: { select: { kind: true } } },
  });
  if (new Set(itemIds).size !== rows.length) throw notFound('due item');
  const without = rows.filter(({ taskId, rule }) => taskId === null && !serves(inspection, rule));
  const whole = without.find(({ rule }) => inspectionOf(rule) !== null);
  if (whole)
    throw new Refused(
      'AGAINST_RULE',
      `“${whole.title}” is quoted by a package of that inspection, and none is on this quote: name one that is made for the aircraft, or leave it out.`,
      'packageId',
    );
  refuseUnpriced(without, 'no task of the shop yet, so nobody knows the hours', 'itemIds');
  const over = rows.find((row) => ended(row));
  if (over) throw new Refused('CONFLICT', `“${over.title}” falls due no more.`, 'itemIds');
  return rows;
}

/** The findings, each as it was last priced. */
async function findingsOf(context: Context, { findingIds, aircraftId }: DueNamed) {
  if (findingIds.length === 0) return [];
  const today = await shopToday(context);
  const [list] = await dueListsOf(context.read, aircraftId, today);
  if (!list) throw notFound('aircraft');
  const lines = await deferredOf(context.read, list, today);
  const findings = lines.filter(({ findingId }) => findingIds.includes(findingId));
  if (new Set(findingIds).size !== findings.length)
    throw new Refused(
      'CONFLICT',
      'A finding that was named is not put off on this aircraft, or was put right since.',
      'findingIds',
    );
  refuseUnpriced(
    findings.filter(({ taskIds }) => taskIds.length === 0),
    'never priced with a task, so nobody knows the hours',
    'findingIds',
  );
  return findings;
}

function refuseUnpriced(
  without: readonly { title: string }[],
  why: string,
  field: 'itemIds' | 'findingIds',
): void {
  if (without.length === 0) return;
  const one = without.length === 1;
  const has = field === 'itemIds' ? (one ? 'has' : 'have') : one ? 'was' : 'were';
  throw new Refused(
    'AGAINST_RULE',
    `Not quoted: ${without.map(({ title }) => `“${title}”`).join(', ')} ${has} ${why}. Leave ${one ? 'it' : 'them'} out, or ${field === 'itemIds' ? 'add the item anew with its task' : 'price the finding first'}.`,
    field,
  );
}
