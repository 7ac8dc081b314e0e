import type { TimeVerdict, Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayMinute } from '../given.ts';
import { holdFor } from '../hold.ts';
import { parseGlobalId } from '../ids.ts';
import { timeFacts } from './odd-times.ts';
import type { KeptOddTime } from './odd-times-of.ts';
import { askRefit } from './refit-hours.ts';

export interface DecideTimeInput {
  timeId: string;
  verdict: TimeVerdict;
  hours: number | null;
  task: string | null;
  reason: string;
  /** How many decisions about it were read: of two people at once the second is told. */
  readDecisions: number;
}

/** As a history file allows them. */
const MOST_HOURS = 1000;

/** Where the time is: an item of the shop's own, or a row of a history file. */
function whereIs(timeId: string): {
  itemId: string | null;
  historyItemId: string | null;
  key: string;
} {
  const { typename, id } = parseGlobalId(timeId);
  if (typename === 'WorkItem') return { itemId: id, historyItemId: null, key: id };
  if (typename === 'HistoryItem') return { itemId: null, historyItemId: id, key: id };
  throw new Refused(
    'BAD_INPUT',
    `timeId is the id of a ${typename}; needed is the id of a WorkItem or of a HistoryItem.`,
    'timeId',
  );
}

/** What goes with a verdict, and nothing else. */
function givenFor({ verdict, hours, task }: DecideTimeInput): {
  hours: number | null;
  task: string | null;
} {
  if (verdict !== 'taken_as' && hours !== null)
    throw new Refused(
      'BAD_INPUT',
      `hours are ${hours}: needed only where a time is taken as other hours.`,
      'hours',
    );
  if (verdict !== 'other_task' && task !== null)
    throw new Refused(
      'BAD_INPUT',
      `task is "${task.slice(0, 60)}": needed only where it was another task.`,
      'task',
    );
  if (verdict === 'taken_as' && !(hours !== null && hours > 0 && hours <= MOST_HOURS))
    throw new Refused(
      'BAD_INPUT',
      `hours are ${hours === null ? 'missing' : hours}: needed are hands-on hours above 0 and up to ${MOST_HOURS}.`,
      'hours',
    );
  if (verdict === 'other_task' && !task?.trim())
    throw new Refused(
      'BAD_INPUT',
      'task is missing: needed is the short name of the task that it was.',
      'task',
    );
  return { hours, task: task?.trim() ?? null };
}

/** Records what a person says of a time that looked odd. The clock stays; learning follows at the next fit. */
export async function decideTime(context: Context, input: DecideTimeInput): Promise<void> {
  const { personId } = await allow(context, 'manager', 'inspector');
  const { key, ...where } = whereIs(input.timeId);
  const reason = givenText(input.reason, 'reason', { least: 3, most: 2000 });
  const { hours, task } = givenFor(input);

  await context.write(async (tx) => {
    // load
    await holdFor(tx, 'time review', key);
    const [facts] = await timeFacts(tx, [key]);
    if (!facts || facts.own !== (where.itemId !== null)) throw await notThere(tx, where.itemId);
    const earlier = await tx.timeReview.findMany({
      where,
      orderBy: [{ decidedAt: 'desc' }, { id: 'desc' }],
      include: { decidedBy: { select: { name: true } } },
    });
    // decide
    const [newest] = earlier;
    if (newest && earlier.length !== input.readDecisions)
      throw new Refused(
        'CONFLICT',
        `${newest.decidedBy.name} decided about it on ${sayMinute(newest.decidedAt)}, after you read it. Nothing of yours is saved: look at what was said, then decide again.`,
        'readDecisions',
      );
    if (hours === facts.hours)
      throw new Refused(
        'BAD_INPUT',
        `The clock says ${hours} h already: choose that it stands.`,
        'hours',
      );
    if (task !== null) await refuseUnknown(tx, task, facts.task);
    // save
    await tx.timeReview.create({
      data: {
        ...where,
        verdict: input.verdict,
        hours,
        task,
        reason,
        proposed: newest ? (newest.proposed as object) : await proposedFor(tx, input.timeId),
        decidedAt: context.now(),
        decidedById: personId,
      },
      select: { id: true },
    });
    await askRefit(tx, context.now());
  });
}

async function notThere(tx: Tx, itemId: string | null): Promise<Refused> {
  const item =
    itemId && (await tx.workItem.findUnique({ where: { id: itemId }, select: { title: true } }));
  if (!item) return notFound('past job');
  return new Refused(
    'AGAINST_RULE',
    `Nothing is learned from "${item.title}" yet: needed is an item of a task, with clocked hours, that was finished or put off.`,
    'timeId',
  );
}

async function refuseUnknown(tx: Tx, task: string, own: string): Promise<void> {
  if (task === own)
    throw new Refused(
      'BAD_INPUT',
      `task is "${task}", which it is already: needed is another.`,
      'task',
    );
  const known = await tx.$queryRaw<unknown[]>`
    SELECT 1 AS one FROM task WHERE shop_id = current_shop() AND key = ${task}
    UNION ALL SELECT 1 FROM history_item WHERE shop_id = current_shop() AND task = ${task} LIMIT 1`;
  if (known.length === 0)
    throw new Refused(
      'BAD_INPUT',
      `task is "${task.slice(0, 60)}": needed is the short name of a task of the catalogue, or of one that was done before.`,
      'task',
    );
}

/** What the newest model said of it; nothing where a person came upon it alone. */
async function proposedFor(tx: Tx, timeId: string): Promise<object> {
  const model = await tx.hoursModel.findFirst({
    where: { items: { gt: 0 } },
    orderBy: { number: 'desc' },
    select: { number: true, oddTimes: true },
  });
  const proposal = ((model?.oddTimes ?? []) as unknown as KeptOddTime[]).find(
    ({ id }) => id === timeId,
  );
  return proposal ? { modelNumber: model?.number, ...proposal } : {};
}
