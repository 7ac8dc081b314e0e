import { accessLoadings, meanOf } from './access.ts';
import type { AccessConditions } from './access-conditions.ts';
import { ACCESS_PRIORS, type AccessPriors } from './access-priors.ts';
import { ESTIMATE_PRIORS, type EstimatePriors } from './estimate-priors.ts';
import { type Hours, hours } from './hours.ts';

/** One completed job of a task. */
export type PastJob = {
  readonly hours: Hours;
  /** True when the hours are only a lower bound: never ended, or handed over unfinished. */
  readonly censored?: boolean | undefined;
  /** The place as it was found. */
  readonly found?: AccessConditions | undefined;
};

/** A task with everything the shop has clocked on it. */
export type TaskHistory = {
  readonly task: string;
  readonly standardHours?: Hours | undefined;
  /** The place the standard was stated for; undefined: as installed. */
  readonly statedFor?: AccessConditions | undefined;
  readonly jobs: readonly PastJob[];
};

type TaskSummary = {
  readonly jobs: number;
  /** Mean of ln(hours / standard), access taken out; undefined without a standard time. */
  readonly meanLnRatio: number | undefined;
  /** Sum of squares about the task's own mean of ln hours. */
  readonly squares: number;
};

/** The shop's whole history, summed up once so that each estimate costs the same however long it is. */
export type ShopSummary = {
  readonly tasks: ReadonlyMap<string, TaskSummary>;
  readonly jobs: number;
  readonly medianHours: Hours | undefined;
};

/** ln hours of the finished jobs with the place taken out. Lower bounds are not times and stay out. */
function finishedLogs({ jobs, statedFor }: TaskHistory, priors: AccessPriors): number[] {
  return jobs
    .filter((job) => job.censored !== true)
    .map((job) => Math.log(hours(job.hours)) - meanOf(accessLoadings(job.found, statedFor, priors)))
    .sort((a, b) => a - b);
}

function summarise(history: TaskHistory, priors: AccessPriors): TaskSummary {
  const logs = finishedLogs(history, priors);
  const mean = logs.reduce((sum, y) => sum + y, 0) / logs.length;
  const { standardHours } = history;
  const known = standardHours !== undefined && logs.length > 0;
  return {
    jobs: logs.length,
    meanLnRatio: known ? mean - Math.log(hours(standardHours)) : undefined,
    squares: logs.reduce((sum, y) => sum + (y - mean) ** 2, 0),
  };
}

function medianOf(sorted: readonly Hours[]): Hours | undefined {
  const middle = sorted.length / 2;
  const upper = sorted[Math.floor(middle)];
  const lower = sorted[Math.ceil(middle) - 1];
  return upper === undefined || lower === undefined ? undefined : hours(Math.sqrt(lower * upper));
}

/**
 * Shop summary: what the shop's history says about the shop, task by task.
 * The median of an even number of jobs is the geometric mean of the middle two, as fits a log scale.
 *
 * @throws RangeError for hours that are not finite and above 0, or for a task that comes twice
 * @example summariseShop([]).jobs // 0
 */
export function summariseShop(
  histories: readonly TaskHistory[],
  priors: AccessPriors = ACCESS_PRIORS,
): ShopSummary {
  const tasks = new Map<string, TaskSummary>();
  for (const history of histories) {
    if (tasks.has(history.task)) {
      throw new RangeError(`Task "${history.task}" comes twice; give its jobs together.`);
    }
    tasks.set(history.task, summarise(history, priors));
  }
  const finished = histories
    .flatMap(({ jobs }) => jobs.filter((job) => job.censored !== true).map((job) => job.hours))
    .sort((a, b) => a - b);
  return { tasks, jobs: finished.length, medianHours: medianOf(finished) };
}

/** What the shop's other tasks lend to one task. */
export type Background = {
  readonly effect: { readonly mean: number; readonly variance: number };
  /** Tasks with a standard time, and their jobs, behind the effect. */
  readonly tasks: number;
  readonly jobs: number;
  /** Residual s.d. of a job about its task. */
  readonly jobSd: number;
  /** The shop's median hours; undefined when the shop has clocked no other task. */
  readonly medianHours: Hours | undefined;
};

/**
 * Background of a task: the shop's effect on standard times and its spread, from its other tasks.
 *
 *     s₀² = (weight·jobSd² + Σ squares) / (weight + Σ(nⱼ − 1))
 *     wⱼ = 1 / (taskSd² + s₀²/nⱼ),  δ̂ = Σ wⱼr̄ⱼ / (Σ wⱼ + 1/shopSd²),  var δ = 1 / (Σ wⱼ + 1/shopSd²)
 *
 * r̄ⱼ is task j's mean of ln(hours / standard). One task done a hundred times thus counts as one task
 * well known, not as a hundred pieces of evidence about the shop.
 *
 * @param except the task to estimate: its own jobs must not be counted twice
 */
export function backgroundOf(
  shop: ShopSummary,
  except: string,
  priors: EstimatePriors = ESTIMATE_PRIORS,
): Background {
  const others = [...shop.tasks].filter(([task]) => task !== except).map(([, task]) => task);
  const clocked = others.filter((task) => task.jobs > 0);
  const squares = clocked.reduce((sum, task) => sum + task.squares, 0);
  const freedom = clocked.reduce((sum, task) => sum + task.jobs - 1, 0);
  const variance =
    (priors.jobSdWeight * priors.jobSd ** 2 + squares) / (priors.jobSdWeight + freedom);
  let precision = 1 / priors.shopSd ** 2;
  let weighted = 0;
  let tasks = 0;
  let jobs = 0;
  for (const task of clocked) {
    if (task.meanLnRatio === undefined) continue;
    const weight = 1 / (priors.taskSd ** 2 + variance / task.jobs);
    precision += weight;
    weighted += weight * task.meanLnRatio;
    tasks += 1;
    jobs += task.jobs;
  }
  return {
    effect: { mean: weighted / precision, variance: 1 / precision },
    tasks,
    jobs,
    jobSd: Math.sqrt(variance),
    medianHours: clocked.length > 0 ? shop.medianHours : undefined,
  };
}
