import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';

export interface SetChecklistInput {
  taskId: string;
  lines: readonly string[];
  /** The lines as they were read: somebody else may have changed them since. */
  seen: readonly string[];
}

const MOST_LINES = 60;

/** Writes the checklist of a task. Items opened from now on take it over; what is open already keeps its own. */
export async function setChecklist(context: Context, input: SetChecklistInput): Promise<string> {
  await allow(context, 'manager');
  if (input.lines.length > MOST_LINES)
    throw new Refused(
      'BAD_INPUT',
      `lines has ${input.lines.length} entries: at most ${MOST_LINES}.`,
      'lines',
    );
  const checklist = input.lines.map((line) => givenText(line, 'lines', { least: 3, most: 300 }));
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'task', input.taskId);
    const task = await tx.task.findUnique({
      where: { id: input.taskId },
      select: { id: true, title: true, checklist: true },
    });
    if (!task) throw notFound('task');
    // decide
    const same = (lines: readonly string[]) =>
      lines.length === task.checklist.length &&
      lines.every((line, index) => line === task.checklist[index]);
    if (same(checklist)) return task.id;
    if (!same(input.seen))
      throw new Refused(
        'CONFLICT',
        `The list of “${task.title}” was changed since you read it: read it again before you change it.`,
        'seen',
      );
    // save
    await tx.task.update({ where: { id: task.id }, data: { checklist }, select: { id: true } });
    return task.id;
  });
}
