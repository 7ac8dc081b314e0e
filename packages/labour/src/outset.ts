import type { EstimatePriors } from './estimate-priors.ts';
import type { Hours } from './hours.ts';
import { FLAT, type Prior } from './posterior.ts';
import { medianReason, type Reason, shopReason, standardReason } from './reasons.ts';
import type { Background, ShopSummary } from './shop.ts';

/** A belief about the task, with the hours it starts from and the share of it that is the shop's. */
export type Outset = { prior: Prior; reasons: Reason[]; shopShare: number };

/**
 * Outset: what to believe of a task before its own jobs, and the reasons for it.
 * With a standard time it is that time and the shop's effect; without one the shop's median; without
 * either nothing (a flat prior, no reasons).
 */
export function outsetOf(
  standard: Hours | undefined,
  shop: ShopSummary,
  background: Background,
  priors: EstimatePriors,
): Outset {
  const spread = { sd: background.jobSd, df: priors.jobSdDf };
  if (standard !== undefined) {
    const { mean, variance } = background.effect;
    const doubt = priors.taskSd ** 2 + variance;
    return {
      prior: {
        ...spread,
        location: Math.log(standard) + mean,
        kappa: background.jobSd ** 2 / doubt,
      },
      reasons: [
        standardReason(standard),
        shopReason(Math.exp(mean), background.tasks, background.jobs),
      ],
      shopShare: variance / doubt,
    };
  }
  const median = background.medianHours;
  if (median === undefined) return { prior: { ...FLAT, ...spread }, reasons: [], shopShare: 0 };
  const kappa = background.jobSd ** 2 / priors.noStandardSd ** 2;
  return {
    prior: { ...spread, location: Math.log(median), kappa },
    reasons: [medianReason(median, shop.jobs)],
    shopShare: 0,
  };
}
