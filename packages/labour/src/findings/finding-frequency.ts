import { type BetaPart, lnBeta, mixtureQuantile } from './beta.ts';
import {
  checkCounts,
  checkFindingPriors,
  FINDING_PRIORS,
  type FindingCount,
  type FindingPriors,
} from './finding-counts.ts';

/** How often a kind of finding turns up in a package on a model. */
export type FindingFrequency = {
  /** Probability that it turns up the next time. */
  readonly probability: number;
  /** Where the long-run share lies, nine in ten. */
  readonly from: number;
  readonly to: number;
  readonly seen: number;
  readonly of: number;
  /** On other models. */
  readonly seenElsewhere: number;
  readonly ofElsewhere: number;
};

/** Steps of the grid over the common share (even in probability) and over how alike models are (even in s.d.). */
const SHARES = 30;
const ALIKE = 9;
const REACH = 2.5;
/** A place of the grid that hardly counts is left out. */
const NEGLIGIBLE = 1e-5;

type Place = { readonly lnWeight: number; readonly a: number; readonly b: number };

const known = new WeakMap<FindingPriors, readonly Place[]>();

/** The places of the grid: the beta distribution that models would be drawn from, with ln of its prior's weight. */
function placesOf(priors: FindingPriors): readonly Place[] {
  const former = known.get(priors);
  if (former !== undefined) return former;
  checkFindingPriors(priors);
  const { share, alike } = priors;
  const common: BetaPart[] = [{ weight: 1, a: share.seen, b: share.of - share.seen }];
  const places: Place[] = [];
  for (let i = 0; i < SHARES; i += 1) {
    const mu = Math.min(Math.max(mixtureQuantile(common, (i + 0.5) / SHARES), 1e-9), 1 - 1e-9);
    for (let j = 0; j < ALIKE; j += 1) {
      const z = REACH * ((2 * j) / (ALIKE - 1) - 1);
      const kappa = alike.packages * Math.exp(alike.within * z);
      places.push({ lnWeight: -(z * z) / 2, a: mu * kappa, b: (1 - mu) * kappa });
    }
  }
  known.set(priors, places);
  return places;
}

/**
 * Finding frequency: how often a kind of finding turns up in a package on a model, pooled across models.
 *
 *     k_m ~ Binomial(n_m, p_m),  p_m ~ Beta(μκ, (1 − μ)κ)
 *     μ ~ Beta(seen, of − seen),  ln κ ~ N(ln packages, within²)
 *
 * The shares of the models are integrated out (beta-binomial); μ and κ are integrated over a grid, so that a model never
 * met takes the others' share with all the doubt that is in it, and one met often speaks for itself.
 *
 * @param counts one entry a model, in any order
 * @throws RangeError for counts or priors that cannot be
 */
export function findingFrequency(
  finding: string,
  counts: readonly FindingCount[],
  model: string,
  priors: FindingPriors = FINDING_PRIORS,
): FindingFrequency {
  checkCounts(finding, counts);
  const twice = counts.find((one, index) => counts.findIndex((o) => o.model === one.model) < index);
  if (twice !== undefined) {
    throw new RangeError(`"${finding}" has two counts for ${twice.model}; add them up first.`);
  }
  const here = counts.find((one) => one.model === model) ?? { seen: 0, of: 0 };
  const weighed = placesOf(priors).map(({ lnWeight, a, b }) => ({
    a,
    b,
    lnWeight: counts.reduce(
      (sum, { seen, of }) => sum + lnBeta(a + seen, b + of - seen) - lnBeta(a, b),
      lnWeight,
    ),
  }));
  const most = Math.max(...weighed.map(({ lnWeight }) => lnWeight));
  const counting = weighed
    .map(({ a, b, lnWeight }) => ({
      weight: Math.exp(lnWeight - most),
      a: a + here.seen,
      b: b + here.of - here.seen,
    }))
    .filter(({ weight }) => weight > NEGLIGIBLE);
  const total = counting.reduce((sum, { weight }) => sum + weight, 0);
  const parts = counting.map((part) => ({ ...part, weight: part.weight / total }));
  const others = counts.filter((one) => one.model !== model);
  return {
    probability: parts.reduce((sum, { weight, a, b }) => sum + (weight * a) / (a + b), 0),
    from: mixtureQuantile(parts, 0.05),
    to: mixtureQuantile(parts, 0.95),
    seen: here.seen,
    of: here.of,
    seenElsewhere: others.reduce((sum, { seen }) => sum + seen, 0),
    ofElsewhere: others.reduce((sum, { of }) => sum + of, 0),
  };
}
