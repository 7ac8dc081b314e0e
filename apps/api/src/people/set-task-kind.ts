import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';

/** Says of which kind of work a task is. What was quoted keeps the rate that it was quoted at. */
export async function setTaskKind(
  context: Context,
  { taskId, workKindId }: { taskId: string; workKindId: string | null },
): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  return context.write(async (tx) => {
    const task = await tx.task.findUnique({ where: { id: taskId }, select: { id: true } });
    if (!task) throw notFound('task');
    if (workKindId && !(await tx.workKind.findUnique({ where: { id: workKindId } })))
      throw notFound('kind of work');
    await tx.task.update({ where: { id: task.id }, data: { workKindId }, select: { id: true } });
    return task.id;
  });
}
