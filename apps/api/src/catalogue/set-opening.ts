import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';

/** Says what has to be opened before a task: another task, quoted once for all that is done behind it. Null: nothing. */
export async function setOpening(
  context: Context,
  { taskId, openingId }: { taskId: string; openingId: string | null },
): Promise<string> {
  await allow(context, 'manager');
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'tasks', 'openings');
    const select = { id: true, title: true, openingId: true, behind: { select: { title: true } } };
    const task = await tx.task.findUnique({ where: { id: taskId }, select });
    const opening = openingId
      ? await tx.task.findUnique({ where: { id: openingId }, select })
      : null;
    // decide
    if (!task || (openingId && !opening)) throw notFound('task');
    if (openingId === taskId)
      throw new Refused(
        'BAD_INPUT',
        `“${task.title}” does not open itself: needed is another task.`,
        'openingId',
      );
    const [behind] = task.behind;
    if (opening?.openingId || (opening && behind))
      throw new Refused(
        'AGAINST_RULE',
        opening.openingId
          ? `“${opening.title}” lies behind something itself: needed is what is opened first.`
          : `“${task.title}” is opened for “${behind?.title}”: it lies behind nothing.`,
        'openingId',
      );
    // save
    await tx.task.update({ where: { id: taskId }, data: { openingId }, select: { id: true } });
    return taskId;
  });
}
