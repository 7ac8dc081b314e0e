import { ACCESS_PRIORS, type AccessPriors } from '../access-priors.ts';
import { Criterion } from '../mixed/criterion.ts';
import { type Care, minimise } from '../mixed/optimise.ts';
import { codeAll, medianOf, standardsOf } from './coded-rows.ts';
import type { DoneItem, Factor } from './coding.ts';
import { HOURS_MODEL_VERSION, type HoursModel } from './hours-model.ts';
import { filledPlace, placesOf } from './known-places.ts';
import { HOURS_PRIORS, type HoursPriors } from './priors.ts';
import { centres, problemOf, reweighed } from './problem-of.ts';
import { lostByWeights, reweigh, together } from './reweigh.ts';
import { normalStretch, stretchOf } from './stretch.ts';

/** Rounds of reweighting at most, and the largest change of a weight that ends them. */
const MOST_ROUNDS = 30;
const WEIGHT_SETTLED = 1e-3;
/** Between two reweightings the standard deviations take a step, at first every time, then now and then. */
const FIRST_ROUNDS = 3;
const STEP_EVERY = 3;
const careOf = (round: number): Care => ({
  differencedBelow: 0,
  mostIterations: round <= FIRST_ROUNDS || round % STEP_EVERY === 0 ? 1 : 0,
});
/** At the end they are brought to rest, first with σ, then beside the σ that levels are judged by. */
const NEARLY: Care = { settled: 1e-3, differencedBelow: 0, mostIterations: 5 };
const EXACTLY: Care = { settled: 1e-5, differencedBelow: 0, sigmaHeld: true };
/** An item that counts less than this is odd: a clock left running, a wrong task. */
export const ODD_BELOW = 0.5;

export type FitHoursOptions = {
  readonly priors?: HoursPriors | undefined;
  readonly accessPriors?: AccessPriors | undefined;
  /** Called with the round and the step in it. */
  readonly progress?: ((round: number, step: number) => void) | undefined;
  /** A former model of the same shop: where to begin, so that a refit is short. */
  readonly former?: HoursModel | undefined;
};

/**
 * Fits the model of a shop's hours to what was done.
 *
 * Two layers. The Gaussian one is a linear mixed model of ln hours with normal priors on chapters and access increments
 * and log-normal ones on standard deviations. On top, rounds of reweighting: an odd time counts less (Student-t), a
 * lower bound pulls only upwards. Each round is an ordinary fit that begins where the last one ended.
 *
 * A history without rows is legal: the model then answers from its priors.
 *
 * @throws RangeError for hours that are not finite and above 0, a share outside 0 to 1, or impossible access conditions
 */
export function fitHours(done: readonly DoneItem[], options: FitHoursOptions = {}): HoursModel {
  const standards = standardsOf(done);
  const places = placesOf(done);
  const items = done.map((item) => ({
    ...item,
    standardHours: item.standardHours ?? standards.get(item.task),
    place: filledPlace(item, places),
  }));
  const { priors = HOURS_PRIORS, accessPriors = ACCESS_PRIORS, progress, former } = options;
  const medianHours = medianOf(items);
  const coded = codeAll(items, {
    priors,
    accessPriors,
    medianHours: medianHours ?? priors.medianHours,
  });
  const factors = coded.factors.map((factor) => ({
    factor,
    levels: coded.levels.get(factor)!.names.length,
  }));
  const weights = new Float64Array(items.length).fill(1);
  const y = coded.y.slice();
  const relativeOf = (factor: Factor) =>
    former?.factors.find((one) => one.factor === factor)?.relative ??
    Math.exp(priors[factor].mean) / priors.residual.sd;
  let theta = Float64Array.from(factors, ({ factor }) => relativeOf(factor));
  let lnSigma = former?.lnSigma ?? Math.log(priors.residual.sd);
  let problem = problemOf(
    coded.rows,
    y,
    weights,
    coded.columns.names,
    coded.effects,
    factors,
    priors,
  );
  let criterion: Criterion | undefined;
  let stretch = 1;
  let round = 0;
  let settled = items.length === 0;
  let last = false;
  while (items.length > 0 && round < MOST_ROUNDS) {
    round += 1;
    problem = reweighed(problem, y, weights);
    criterion = new Criterion(problem, criterion);
    const { point } = minimise(
      criterion,
      { theta, lnSigma },
      (step) => progress?.(round, step),
      last ? NEARLY : careOf(round),
    );
    theta = point.theta.slice();
    lnSigma = Math.log(point.sigma2) / 2;
    if (last) {
      // What the weights leave of an item's spread is less than its spread: what is known of the levels must not be overstated.
      const sigma = Math.sqrt(point.sigma2);
      const wider = lostByWeights(coded, centres(problem, point), sigma, priors.robustDf);
      lnSigma += Math.log(wider);
      theta = theta.map((relative) => relative / wider);
      const { point: final } = minimise(
        criterion,
        { theta, lnSigma },
        (step) => progress?.(round + 1, step),
        EXACTLY,
      );
      theta = final.theta.slice();
      stretch = stretchOf(coded, problem, criterion, final, normalStretch(priors.robustDf) / wider);
      break;
    }
    const change = reweigh(
      coded,
      centres(problem, point),
      Math.sqrt(point.sigma2),
      priors.robustDf,
      weights,
      y,
    );
    settled = change < WEIGHT_SETTLED;
    last = settled || round === MOST_ROUNDS - 1;
  }
  return {
    version: HOURS_MODEL_VERSION,
    priors,
    accessPriors,
    columns: coded.columns.names.map((name, index) => ({
      name,
      ...coded.effects[index]!,
      items: coded.columns.counts[index]!,
    })),
    factors: coded.factors.map((factor, index) => ({
      factor,
      levels: coded.levels.get(factor)!.names,
      items: coded.levels.get(factor)!.counts,
      relative: theta[index]!,
    })),
    lnSigma,
    stretch,
    standards: Object.fromEntries(standards),
    places: Object.fromEntries(places),
    rows: together(coded.rows, y, weights),
    summary: {
      items: items.length,
      censored: coded.censored.filter(Boolean).length,
      odd: weights.reduce(
        (sum, w, row) => sum + (w < ODD_BELOW && !coded.censored[row] ? 1 : 0),
        0,
      ),
      medianHours,
      rounds: round,
      settled,
    },
  };
}
