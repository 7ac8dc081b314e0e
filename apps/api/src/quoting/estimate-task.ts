import type { Estimate, Reason } from '@fairlead/labour';
import type { Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { askedMechanic } from './asked-mechanic.ts';
import { classicalEstimate } from './classical-estimate.ts';
import { estimateTasks } from './estimate-tasks.ts';

export interface EstimateTaskInput {
  taskId: string;
  aircraftId: string;
  /** Who will do it; null: whoever is free. */
  mechanicId: string | null;
  /** False: the classical answer from this task's own times alone. */
  usePrior: boolean;
}

/** An estimate as it goes out, whichever way it was made. */
export type TaskEstimate = Pick<
  Estimate,
  'p10' | 'p50' | 'mean' | 'p80' | 'p90' | 'jobs' | 'predictive' | 'modelVersion'
> & { because: readonly Reason[] };

/** How long this task will take on this aircraft. */
export async function estimateTask(
  { read }: Context,
  { taskId, aircraftId, mechanicId, usePrior }: EstimateTaskInput,
): Promise<TaskEstimate> {
  const aircraft = await read.aircraft.findUnique({
    where: { id: aircraftId },
    select: {
      registration: true,
      modelId: true,
      model: { select: { maker: true, name: true } },
    },
  });
  if (!aircraft) throw notFound('aircraft');
  if (!usePrior) return classicalEstimate(read, taskId);
  const { tasks } = await estimateTasks(read, {
    taskIds: [taskId],
    aircraft,
    mechanics: await askedMechanic(read, mechanicId),
  });
  const [task] = tasks;
  if (!task) throw notFound('task');
  return task.estimate;
}
