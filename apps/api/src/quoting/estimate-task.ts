import { type Estimate, estimate, hours } from '@fairlead/labour';
import type { Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { conditionsFrom } from './conditions.ts';
import { pastJobs } from './past-jobs.ts';

export interface EstimateTaskInput {
  taskId: string;
  aircraftId: string;
  /** False: the classical answer from this task's own times alone. */
  usePrior: boolean;
}

/** How long this task will take on this aircraft. */
export async function estimateTask({ read }: Context, input: EstimateTaskInput): Promise<Estimate> {
  // load
  const aircraft = await read.aircraft.findUnique({ where: { id: input.aircraftId }, select: { modelId: true } });
  if (!aircraft) throw notFound('aircraft');
  const task = await read.task.findUnique({
    where: { id: input.taskId },
    include: { standardAccess: true, places: { where: { modelId: aircraft.modelId }, include: { access: true } } },
  });
  if (!task) throw notFound('task');
  const history = await pastJobs(read);

  // decide
  const answer = estimate({
    task: {
      task: task.key,
      standardHours: task.standardHours ? hours(task.standardHours.toNumber()) : undefined,
      statedFor: conditionsFrom(task.standardAccess),
      jobs: history.of(task.key),
    },
    place: conditionsFrom(task.places[0]?.access),
    shop: history.shop,
    prior: input.usePrior ? 'on' : 'off',
  });
  if (answer.kind === 'not-enough-history') throw new Refused('NOT_ENOUGH_HISTORY', answer.sentence);
  return answer;
}
