import { accessEffect, accessLoadings, meanOf } from './access.ts';
import type { AccessConditions } from './access-conditions.ts';
import { accessDoubt, type SharedUncertainty } from './access-doubt.ts';
import { ACCESS_PRIORS, type AccessPriors } from './access-priors.ts';
import { ESTIMATE_PRIORS, type EstimatePriors } from './estimate-priors.ts';
import { type Hours, hours } from './hours.ts';
import { outsetOf } from './outset.ts';
import { FLAT, type Posterior, updated } from './posterior.ts';
import * as say from './reasons.ts';
import { backgroundOf, type ShopSummary, summariseShop, type TaskHistory } from './shop.ts';
import { hoursQuantile, type Predictive } from './student.ts';

/** Changes whenever the same history and request would give other figures. */
export const MODEL_VERSION = 'lognormal-shrunk-1';

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
  readonly shared: readonly SharedUncertainty[];
  readonly modelVersion: string;
};

/** The answer where there is nothing to estimate from; the sentence says what to do. */
export type NotEnoughHistory = {
  readonly kind: 'not-enough-history';
  readonly jobs: number;
  readonly needed: number;
  readonly sentence: string;
};

export type EstimateRequest = {
  readonly task: TaskHistory;
  /** The place as planned; undefined: not recorded. */
  readonly place?: AccessConditions | undefined;
  /** What the shop's whole history says; undefined: a shop without history. */
  readonly shop?: ShopSummary | undefined;
  /** 'off': the classical answer from this task's own times alone. */
  readonly prior?: 'on' | 'off' | undefined;
  readonly accessPriors?: AccessPriors | undefined;
  readonly priors?: EstimatePriors | undefined;
};

/**
 * Degrees of freedom after a normal part has been added to a Student-t (Satterthwaite 1946, Biometrics
 * Bulletin 2(6)): ν·((own + added)/own)², rounded down to stay on the wide side.
 */
function withNormal(df: number, own: number, added: number): number {
  return added === 0 ? df : Math.floor(df * ((own + added) / own) ** 2);
}

function estimateFrom(
  posterior: Posterior,
  placeMean: number,
  shared: readonly SharedUncertainty[],
  accessVariance: number,
  because: readonly say.Reason[],
): Estimate {
  const { sd, kappa, jobs } = posterior;
  const location = posterior.location + placeMean;
  const ownVariance = sd ** 2 * (1 + 1 / kappa);
  const predictive = {
    location,
    scale: Math.sqrt(ownVariance + accessVariance),
    df: withNormal(posterior.df, ownVariance, accessVariance),
  };
  const quantile = (p: number) => hoursQuantile(predictive, p) as Hours;
  return {
    kind: 'estimate',
    p10: quantile(0.1),
    p50: quantile(0.5),
    mean: hours(Math.exp(location + sd ** 2 / 2)),
    meanIs: 'lognormal plug-in mean',
    p80: quantile(0.8),
    p90: quantile(0.9),
    jobs,
    because,
    predictive,
    shared,
    modelVersion: MODEL_VERSION,
  };
}

const notEnough = (jobs: number, needed: number, remedy: string): NotEnoughHistory => ({
  kind: 'not-enough-history',
  jobs,
  needed,
  sentence: `Not enough history: ${jobs} finished ${jobs === 1 ? 'job' : 'jobs'} of this task, ${needed} needed. ${remedy}`,
});

/** Notes on the jobs themselves, the same with and without the prior. */
function sampleNotes(posterior: Posterior, censored: number, placeOut: boolean): say.Reason[] {
  const { jobs, sampleMean, sampleSd } = posterior;
  const notes: say.Reason[] = [];
  if (sampleMean !== undefined) notes.push(say.sampleReason(jobs, sampleMean, sampleSd, placeOut));
  if (censored > 0) notes.push(say.censoredReason(censored));
  return notes;
}

/** The classical answer: mean and s.d. of ln hours, Student-t with n − 1 degrees of freedom. */
function classical(logs: readonly number[], censored: number): Estimate | NotEnoughHistory {
  if (logs.length < 2) {
    return notEnough(logs.length, 2, 'Leave the prior on, or clock more jobs of this task.');
  }
  const posterior = updated(logs, FLAT);
  const because: say.Reason[] = [
    say.ownTimesReason(hours(Math.exp(posterior.location)), posterior.jobs),
    say.priorOffReason(),
    ...sampleNotes(posterior, censored, false),
  ];
  if (posterior.sd === 0) because.push(say.noSpreadReason());
  return estimateFrom(posterior, 0, [], 0, because);
}

/**
 * Estimate: how many hands-on hours one task will take, as a distribution, with its reasons.
 *
 *     y = ln h − access effect;  y ~ N(m, σ²), updated as in `updated`
 *     ln h_next ~ Student-t(location = mₙ + access effect of the place,
 *                           scale² = sₙ²(1 + 1/κₙ) + access variance,  df from νₙ)
 *     m₀ = ln standard + shop's effect, κ₀ = s₀²/(taskSd² + var δ)     with a standard time
 *     m₀ = ln of the shop's median,     κ₀ = s₀²/noStandardSd²         without one
 *
 * The access effect is the difference from the place the standard was stated for; where that is not
 * recorded the place asked for stands in ("as installed"), so that jobs done elsewhere are brought to
 * it and the place itself costs nothing more. The access variance is what the access priors leave open
 * after the task's own jobs; that it is added to the squared scale, and the degrees of freedom raised
 * to match, is an approximation, since a Student-t plus a normal is not quite a Student-t.
 * Without a standard time and without any other task clocked, the prior on m is flat.
 * Jobs that are only lower bounds are left out of the fit and counted in the reasons.
 *
 * With `prior: 'off'`: m = mean ln h, s = its s.d. (n − 1), quantile exp(m + t₍n−1,p₎·s·√(1 + 1/n)).
 *
 * @returns the estimate, or what is missing: 2 finished jobs with the prior off; with it on, a
 *   standard time or 1 finished job or another task clocked
 * @throws RangeError for hours that are not finite and above 0, or impossible access conditions
 * @example
 * const twice = [{ hours: hours(1) }, { hours: hours(4) }];
 * estimate({ task: { task: 'Replace the hose', jobs: twice }, prior: 'off' }) // p50: 2
 */
export function estimate(request: EstimateRequest): Estimate | NotEnoughHistory {
  const { task, place, accessPriors = ACCESS_PRIORS, priors = ESTIMATE_PRIORS } = request;
  const finished = task.jobs.filter((job) => job.censored !== true);
  const censored = task.jobs.length - finished.length;
  const logs = finished.map((job) => Math.log(hours(job.hours)));
  if (request.prior === 'off') return classical(logs, censored);

  const standard = task.standardHours === undefined ? undefined : hours(task.standardHours);
  const shop = request.shop ?? summariseShop([]);
  const reference = task.statedFor ?? place;
  const outset = outsetOf(standard, shop, backgroundOf(shop, task.task, priors), priors);
  if (outset.prior.kappa === 0 && logs.length === 0) {
    return notEnough(0, 1, 'Give the task a standard time, or clock it once.');
  }

  const past = finished.map((job) => accessLoadings(job.found, reference, accessPriors));
  const posterior = updated(
    logs.map((log, index) => log - meanOf(past[index] ?? [])),
    outset.prior,
  );
  const { kappa, sd, location, jobs } = posterior;
  const here = accessEffect(place, reference, accessPriors);
  const doubt = accessDoubt(accessLoadings(place, reference, accessPriors), past, kappa);
  const taskVariance = sd ** 2 / kappa;
  const shopVariance = taskVariance * (outset.prior.kappa / kappa) * outset.shopShare;
  const shared = [
    { component: 'shop', loading: Math.sqrt(shopVariance) },
    { component: `task:${task.task}`, loading: Math.sqrt(taskVariance - shopVariance) },
    ...doubt,
  ].filter(({ loading }) => loading !== 0);
  const chain =
    outset.reasons.length === 0
      ? [say.ownTimesReason(hours(Math.exp(location)), jobs)]
      : [...outset.reasons, say.ownHistoryReason(Math.exp(location - outset.prior.location), jobs)];
  const because = [
    ...chain,
    say.placeReason(Math.exp(here.mean), here.parts),
    ...sampleNotes(
      posterior,
      censored,
      past.some((loadings) => loadings.length > 0),
    ),
  ];
  const accessVariance = doubt.reduce((sum, { loading }) => sum + loading ** 2, 0);
  return estimateFrom(posterior, here.mean, shared, accessVariance, because);
}
