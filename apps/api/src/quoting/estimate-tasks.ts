import type { Tx } from '@fairlead/database';
import {
  behindOpeningReason,
  FREE_BENCH,
  type HoursEstimate,
  type MechanicShare,
  openedOnceReason,
  type PlannedItem,
  type Reason,
  reasonsOf,
} from '@fairlead/labour';
import { conditionsFrom } from '../conditions.ts';
import { notFound, Refused } from '../errors.ts';
import { modelInForce, type ShopModel } from '../hindsight/index.ts';

/** What is estimated: tasks, on one aircraft, by somebody or by whoever is free. */
export interface EstimateTasksInput {
  taskIds: readonly string[];
  aircraft: { registration: string; modelId: string; model: { maker: string; name: string } };
  /** Who will do them, where that is known. */
  mechanics?: readonly MechanicShare[];
}

/** A task with its hours, what they were asked by, and the conditions of its place on that model. */
export interface EstimatedTask {
  id: string;
  title: string;
  accessId: string | null;
  /** At whose rate an hour of it is sold; null: at the general one. */
  workKind: string | null;
  asked: PlannedItem;
  estimate: HoursEstimate & { because: readonly Reason[] };
}

export interface EstimatedTasks {
  model: ShopModel;
  tasks: EstimatedTask[];
}

/**
 * How long each task will take on an aircraft, in the order asked for, by the model in force. The number of statements is
 * the same for one task and for sixty, and does not grow with the shop's history.
 */
export async function estimateTasks(
  read: Tx,
  { taskIds, aircraft, mechanics = [] }: EstimateTasksInput,
): Promise<EstimatedTasks> {
  const { modelId, registration } = aircraft;
  const tasks = await read.task.findMany({
    where: { id: { in: [...taskIds] } },
    include: {
      standardAccess: true,
      workKind: { select: { name: true } },
      places: { where: { modelId }, include: { access: true } },
    },
  });
  const shop = await modelInForce(read);
  const byId = new Map(tasks.map((task) => [task.id, task]));
  return {
    model: shop,
    tasks: taskIds.map((id) => {
      const task = byId.get(id);
      if (!task) throw notFound('task');
      const access = task.places[0];
      const place = conditionsFrom(access?.access);
      const standardHours = task.standardHours?.toNumber();
      const asked: PlannedItem = {
        task: task.key,
        jasc: task.jasc,
        standardHours,
        model: `${aircraft.model.maker} ${aircraft.model.name}`,
        registration,
        mechanics,
        place,
        // A standard without a place of its own is for the task as it is installed there.
        statedFor:
          standardHours === undefined
            ? FREE_BENCH
            : (conditionsFrom(task.standardAccess) ?? place ?? FREE_BENCH),
      };
      return {
        id,
        title: task.title,
        accessId: access?.accessId ?? null,
        workKind: task.workKind?.name ?? null,
        asked,
        estimate: said(estimateOne(shop, asked, task.title), [
          ...behindOf(id, taskIds, byId),
          ...(task.openingId === null
            ? []
            : [behindOpeningReason(byId.get(task.openingId)?.title ?? null)]),
        ]),
      };
    }),
  };
}

type Known = ReadonlyMap<string, { title: string; openingId: string | null }>;

/** The reason of what is opened for others of the same list: it is worked, and sold, once. */
function behindOf(id: string, taskIds: readonly string[], known: Known): Reason[] {
  const behind = taskIds.flatMap((each) => {
    const task = known.get(each);
    return task?.openingId === id ? [task.title] : [];
  });
  return behind.length === 0 ? [] : [openedOnceReason(behind)];
}

const said = (estimate: EstimatedTask['estimate'], more: readonly Reason[]) => ({
  ...estimate,
  because: [...estimate.because, ...more],
});

/** @throws Refused where neither a standard time nor anything that the shop has clocked says where to start */
export function estimateOne(
  { model, predictor }: ShopModel,
  asked: PlannedItem,
  title: string,
): EstimatedTask['estimate'] {
  if (asked.standardHours === undefined && model.summary.medianHours === undefined)
    throw new Refused(
      'NOT_ENOUGH_HISTORY',
      `"${title}" cannot be estimated. It has no standard time, and the shop has not clocked anything yet: give the task a standard time, or import a history.`,
    );
  const estimate = predictor.estimate(asked);
  const learned = model.summary.items - model.summary.censored;
  return { ...estimate, because: reasonsOf(estimate.steps, learned) };
}
