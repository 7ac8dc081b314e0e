import { createHash } from 'node:crypto';
import type { Prisma } from '@fairlead/database';

/** What of a task its form changes. */
export const taskFacts = {
  title: true,
  jasc: true,
  standardHours: true,
  critical: true,
  cautions: true,
  reference: true,
  paragraphs: true,
} as const satisfies Prisma.TaskSelect;

export type TaskFacts = Prisma.TaskGetPayload<{ select: typeof taskFacts }>;

/** Changes with every change of a task: given back with a change, so that two people do not undo each other unseen. */
export const taskVersion = (task: TaskFacts): string =>
  createHash('sha256')
    .update(
      JSON.stringify([
        task.title,
        task.jasc,
        task.standardHours?.toFixed() ?? null,
        task.critical,
        task.cautions,
        task.reference,
        task.paragraphs,
      ]),
    )
    .digest('hex')
    .slice(0, 16);
