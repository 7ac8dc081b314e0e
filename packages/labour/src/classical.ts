import { type Hours, hours } from './hours.ts';
import * as say from './reasons.ts';
import { hoursQuantile, type Predictive } from './student.ts';

/** Changes whenever the same jobs would give other figures. */
export const CLASSICAL_VERSION = 'lognormal-classical-1';

/** One completed job of a task. */
export type PastJob = {
  readonly hours: Hours;
  /** True when the hours are only a lower bound: never ended, or handed over unfinished. */
  readonly censored?: boolean | undefined;
};

/** How long a task will take, how sure that is, and why. Hours are hands-on hours. */
export type Estimate = {
  readonly kind: 'estimate';
  readonly p10: Hours;
  readonly p50: Hours;
  readonly mean: Hours;
  /** What `mean` is: exp(location + s²/2) with the estimates put in, not an average of the predictive. */
  readonly meanIs: 'lognormal plug-in mean';
  readonly p80: Hours;
  readonly p90: Hours;
  /** Finished jobs of this task behind it. */
  readonly jobs: number;
  readonly because: readonly say.Reason[];
  readonly predictive: Predictive;
  readonly modelVersion: string;
};

/** The answer where there is nothing to estimate from; the sentence says what to do. */
export type NotEnoughHistory = {
  readonly kind: 'not-enough-history';
  readonly jobs: number;
  readonly needed: number;
  readonly sentence: string;
};

const FEWEST = 2;

/**
 * Classical estimate: how long the next job of a task will take, from its own recorded times alone, as a textbook has it.
 *
 *     m, s = mean and s.d. (divisor n − 1) of ln h
 *     ln h_next ~ m + s·√(1 + 1/n)·t with n − 1 degrees of freedom
 *
 * Jobs that are only lower bounds are left out and counted in the reasons. The order of the jobs changes no digit.
 *
 * @returns the estimate, or what is missing below 2 finished jobs
 * @throws RangeError for hours that are not finite and above 0, or times too far apart to state a range in hours
 * @example
 * classicalEstimate([{ hours: hours(1) }, { hours: hours(4) }]) // p50: 2
 */
export function classicalEstimate(past: readonly PastJob[]): Estimate | NotEnoughHistory {
  const logs = past
    .filter(({ censored }) => censored !== true)
    .map((job) => Math.log(hours(job.hours)))
    .sort((a, b) => a - b);
  const jobs = logs.length;
  if (jobs < FEWEST) {
    return {
      kind: 'not-enough-history',
      jobs,
      needed: FEWEST,
      sentence: `Not enough history: ${jobs} finished ${jobs === 1 ? 'job' : 'jobs'} of this task, ${FEWEST} needed. Leave the prior on, or clock more jobs of this task.`,
    };
  }
  const location = logs.reduce((sum, y) => sum + y, 0) / jobs;
  const sd = Math.sqrt(logs.reduce((sum, y) => sum + (y - location) ** 2, 0) / (jobs - 1));
  const predictive = { location, scale: sd * Math.sqrt(1 + 1 / jobs), df: jobs - 1 };
  const quantile = (p: number) => hoursQuantile(predictive, p) as Hours;
  const censored = past.length - jobs;
  return {
    kind: 'estimate',
    p10: quantile(0.1),
    p50: quantile(0.5),
    mean: hours(Math.exp(location + sd ** 2 / 2)),
    meanIs: 'lognormal plug-in mean',
    p80: quantile(0.8),
    p90: quantile(0.9),
    jobs,
    because: [
      say.ownTimesReason(hours(Math.exp(location)), jobs),
      say.priorOffReason(),
      say.sampleReason(jobs, location, sd),
      ...(censored > 0 ? [say.censoredReason(censored)] : []),
      ...(sd === 0 ? [say.noSpreadReason()] : []),
    ],
    predictive,
    modelVersion: CLASSICAL_VERSION,
  };
}
