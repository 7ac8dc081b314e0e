import type { Tx } from '@fairlead/database';
import { type Estimate, estimate, hours } from '@fairlead/labour';
import { notFound, Refused } from '../errors.ts';
import { conditionsFrom } from './conditions.ts';
import { pastJobs } from './past-jobs.ts';

/** What is estimated: tasks, on a model, with or without what the rest of the shop lends them. */
export interface EstimateTasksInput {
  taskIds: readonly string[];
  modelId: string;
  /** False: the classical answer from each task's own times alone. */
  usePrior: boolean;
}

/** A task with its hours, and with the conditions of its place on that model. */
export interface EstimatedTask {
  id: string;
  title: string;
  accessId: string | null;
  estimate: Estimate;
}

/**
 * How long each task will take on a model, in the order asked for. The number of statements is the
 * same for one task and for sixty: the tasks with their places, and one read of the shop's history.
 */
export async function estimateTasks(
  read: Tx,
  { taskIds, modelId, usePrior }: EstimateTasksInput,
): Promise<EstimatedTask[]> {
  const tasks = await read.task.findMany({
    where: { id: { in: [...taskIds] } },
    include: { standardAccess: true, places: { where: { modelId }, include: { access: true } } },
  });
  const history = await pastJobs(read);
  const byId = new Map(tasks.map((task) => [task.id, task]));
  return taskIds.map((id) => {
    const task = byId.get(id);
    if (!task) throw notFound('task');
    const place = task.places[0];
    const answer = estimate({
      task: {
        task: task.key,
        standardHours: task.standardHours ? hours(task.standardHours.toNumber()) : undefined,
        statedFor: conditionsFrom(task.standardAccess),
        jobs: history.of(task.key),
      },
      place: conditionsFrom(place?.access),
      shop: history.shop,
      prior: usePrior ? 'on' : 'off',
    });
    if (answer.kind === 'not-enough-history')
      throw new Refused(
        'NOT_ENOUGH_HISTORY',
        `"${task.title}" cannot be estimated. ${answer.sentence}`,
      );
    return { id, title: task.title, accessId: place?.accessId ?? null, estimate: answer };
  });
}
