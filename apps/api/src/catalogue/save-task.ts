import { inspectionItems } from '@fairlead/airworthiness';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenQuantity, givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { newKey } from './new-key.ts';
import { taskFacts, taskVersion } from './task-version.ts';

export interface SaveTaskInput {
  /** Null: a new one. */
  taskId: string | null;
  /** Of the task as it was read; null for a new one. */
  version: string | null;
  title: string;
  jasc: string;
  /** Labour-hours; null: none is known. */
  standardHours: string | null;
  critical: boolean;
  cautions: readonly string[];
  reference: string;
  paragraphs: readonly string[];
}

const MOST_CAUTIONS = 12;
const known = new Set(inspectionItems.map(({ paragraph }) => paragraph));

/** Describes a piece of work, or describes it anew. What was quoted and opened before keeps its own words and hours. */
export async function saveTask(context: Context, input: SaveTaskInput): Promise<string> {
  const { shopId } = await allow(context, 'manager');
  const data = given(input);
  return context.write(async (tx) => {
    if (input.taskId === null) {
      await holdFor(tx, 'catalogue', 'tasks');
      const taken = await tx.task.findMany({ select: { key: true } });
      const key = newKey(data.title, new Set(taken.map((each) => each.key)));
      const { id } = await tx.task.create({ data: { ...data, shopId, key }, select: { id: true } });
      return id;
    }
    await holdFor(tx, 'task', input.taskId);
    const task = await tx.task.findUnique({ where: { id: input.taskId }, select: taskFacts });
    if (!task) throw notFound('task');
    if (taskVersion(task) !== input.version)
      throw new Refused(
        'CONFLICT',
        `“${task.title}” was changed since you read it: read it again before you change it.`,
        'version',
      );
    await tx.task.update({ where: { id: input.taskId }, data, select: { id: true } });
    return input.taskId;
  });
}

function given(input: SaveTaskInput) {
  const jasc = input.jasc.trim();
  if (!/^\d{4}$/.test(jasc))
    throw new Refused(
      'BAD_INPUT',
      `jasc is "${jasc.slice(0, 20)}": needed are the four digits of a JASC code, such as 7310.`,
      'jasc',
    );
  if (input.cautions.length > MOST_CAUTIONS)
    throw new Refused(
      'BAD_INPUT',
      `cautions has ${input.cautions.length} entries: at most ${MOST_CAUTIONS}.`,
      'cautions',
    );
  const stranger = input.paragraphs.find((paragraph) => !known.has(paragraph));
  if (stranger !== undefined)
    throw new Refused(
      'BAD_INPUT',
      `"${stranger.slice(0, 60)}" is no line of 14 CFR part 43 appendix D or 43.15: needed is one as they are listed, such as "appendix D(d)(3)".`,
      'paragraphs',
    );
  return {
    title: givenText(input.title, 'title', { least: 3, most: 200 }),
    jasc,
    standardHours:
      input.standardHours === null
        ? null
        : givenQuantity(input.standardHours, 'standardHours', { most: 999, decimals: 3 }),
    critical: input.critical,
    cautions: input.cautions.map((each) => givenText(each, 'cautions', { least: 3, most: 300 })),
    reference: givenText(input.reference, 'reference', { most: 300 }),
    paragraphs: [...new Set(input.paragraphs)],
  };
}
