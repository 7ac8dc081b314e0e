import type { Estimate } from '@fairlead/labour';
import type { Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { estimateTasks } from './estimate-tasks.ts';

export interface EstimateTaskInput {
  taskId: string;
  aircraftId: string;
  /** False: the classical answer from this task's own times alone. */
  usePrior: boolean;
}

/** How long this task will take on this aircraft. */
export async function estimateTask(
  { read }: Context,
  { taskId, aircraftId, usePrior }: EstimateTaskInput,
): Promise<Estimate> {
  const aircraft = await read.aircraft.findUnique({
    where: { id: aircraftId },
    select: { modelId: true },
  });
  if (!aircraft) throw notFound('aircraft');
  const [task] = await estimateTasks(read, {
    taskIds: [taskId],
    modelId: aircraft.modelId,
    usePrior,
  });
  if (!task) throw notFound('task');
  return task.estimate;
}
