import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { draftQuote, soldByTime } from '../quoting/index.ts';
import { shopToday } from '../today.ts';
import { deferredOf } from './deferred/deferred-of.ts';
import { dueListsOf, dueOn } from './due-list.ts';
import { ended } from './due-terms.ts';

export interface QuoteDueInput {
  aircraftId: string;
  contactId: string;
  itemIds: readonly string[];
  /** Findings that were put off. */
  findingIds: readonly string[];
  packageId: string | null;
  clientEventId: string | null;
}

/**
 * Drafts one quote for what falls due and for findings that were put off: each task once, beside a package where one is named.
 * What has to be opened for them is a task of its own and comes once, however much is done behind it; what the package opens
 * anyway does not come again.
 */
export async function quoteDue(context: Context, input: QuoteDueInput): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const { aircraftId, contactId, itemIds, findingIds, packageId, clientEventId } = input;
  const many = itemIds.length + findingIds.length;
  if (many === 0 || many > 100)
    throw new Refused('BAD_INPUT', `${many} items were named: needed are 1 to 100.`, 'itemIds');
  const rows = await itemsOf(context, input);
  const findings = await findingsOf(context, input);
  const inPackage = packageId
    ? await context.read.packageTask.findMany({
        where: { packageId },
        select: { taskId: true, task: { select: { openingId: true } } },
      })
    : [];
  const there = new Set(inPackage.flatMap(({ taskId, task }) => [taskId, task.openingId ?? '']));
  const wanted = [
    ...rows.flatMap(({ taskId }) => taskId ?? []),
    ...findings.flatMap(({ taskIds }) => taskIds),
  ];
  const behind = await context.read.task.findMany({
    where: { id: { in: wanted } },
    select: { openingId: true },
  });
  const openings = behind.flatMap(({ openingId }) => openingId ?? []);
  const tasks = [...new Set([...openings, ...wanted])].filter((taskId) => !there.has(taskId));
  const titles = [...rows, ...findings].map(({ title }) => title);
  return draftQuote(context, {
    ...{ aircraftId, contactId, packageId, findingId: null, clientEventId },
    tasks: tasks.map(soldByTime),
    parts: [],
    charges: [],
    title: packageId ? null : `Due: ${titles.join(', ')}`.slice(0, 200),
    expiresOn: null,
    terms: null,
  });
}

/** The items, each with a task. */
async function itemsOf({ read }: Context, { itemIds, aircraftId }: QuoteDueInput) {
  const rows = await read.dueItem.findMany({
    where: { id: { in: [...itemIds] }, ...dueOn(aircraftId) },
    select: { id: true, title: true, taskId: true, events: { select: { kind: true } } },
  });
  if (new Set(itemIds).size !== rows.length) throw notFound('due item');
  refuseUnpriced(
    rows.filter(({ taskId }) => taskId === null),
    'no task of the shop yet, so nobody knows the hours',
    'itemIds',
  );
  const over = rows.find((row) => ended(row));
  if (over) throw new Refused('CONFLICT', `“${over.title}” falls due no more.`, 'itemIds');
  return rows;
}

/** The findings, each as it was last priced. */
async function findingsOf(context: Context, { findingIds, aircraftId }: QuoteDueInput) {
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
