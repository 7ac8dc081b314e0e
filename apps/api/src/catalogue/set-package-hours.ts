import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenQuantity } from '../given.ts';
import { holdAllFor } from '../hold.ts';
import { taskFacts, taskVersion } from './task-version.ts';

export interface SetPackageHoursInput {
  packageId: string;
  hours: readonly {
    taskId: string;
    /** Of the task as it was read. */
    version: string;
    /** Labour-hours; null: none is known. */
    standardHours: string | null;
  }[];
}

/**
 * Says how long tasks of a package should take, all of them or none. What was quoted and opened before keeps its own hours; a
 * task that other packages hold is the same there.
 */
export async function setPackageHours(
  context: Context,
  { packageId, hours }: SetPackageHoursInput,
): Promise<void> {
  await allow(context, 'manager');
  const ids = hours.map(({ taskId }) => taskId);
  if (hours.length === 0)
    throw new Refused('BAD_INPUT', 'No task is given: needed is at least one.', 'hours');
  if (new Set(ids).size !== ids.length)
    throw new Refused('BAD_INPUT', 'A task is given twice: needed is each of them once.', 'hours');
  await context.write(async (tx) => {
    // load
    await holdAllFor(tx, 'task', ids);
    const packed = await tx.packageTask.findMany({
      where: { packageId, taskId: { in: ids } },
      orderBy: { position: 'asc' },
      select: { taskId: true, task: { select: taskFacts } },
    });
    if (packed.length < ids.length) throw notFound('task of this package');
    // decide
    const changes = packed.flatMap(({ taskId, task }) => {
      const given = hours.find((each) => each.taskId === taskId)!;
      if (taskVersion(task) !== given.version)
        throw new Refused(
          'CONFLICT',
          `“${task.title}” was changed since you read it: read it again before you say how long it takes. No hours were kept.`,
          'hours',
        );
      const standardHours = given.standardHours && hoursOf(task.title, given.standardHours);
      const same = (task.standardHours?.toFixed() ?? null) === standardHours;
      return same ? [] : [{ id: taskId, standardHours }];
    });
    // save
    for (const { id, standardHours } of changes)
      await tx.task.update({ where: { id }, data: { standardHours }, select: { id: true } });
  });
}

const hoursOf = (title: string, given: string) =>
  givenQuantity(given, 'hours', { most: 999, decimals: 3, called: `The time of “${title}”` });
