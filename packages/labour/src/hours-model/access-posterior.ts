import { type AccessLoading, accessLoadings } from '../access.ts';
import { ACCESS_CONDITIONS } from '../access-coding.ts';
import { type AccessCondition, type AccessConditions, FREE_BENCH } from '../access-conditions.ts';
import type { AccessPriors } from '../access-priors.ts';
import type { HoursPredictor } from './predictor.ts';

/** A factor with where it lies, nine in ten. */
export type FactorRange = { readonly factor: number; readonly from: number; readonly to: number };

/** What one level of an access condition does to the hours, against the best level: as first believed, and as seen here. */
export type AccessFactor = {
  readonly condition: AccessCondition;
  readonly words: string;
  /** A place that has this level of the condition, and nothing else written down. */
  readonly place: AccessConditions;
  readonly prior: FactorRange;
  readonly posterior: FactorRange;
  /** Finished items that tell of the last step to this level: those done at it, or at a worse one. */
  readonly items: number;
};

type Level = Pick<AccessFactor, 'condition' | 'words' | 'place'>;

/** One place for each level below the best; a band is represented by its lower half. */
function levelsOf(condition: AccessCondition, priors: AccessPriors): Level[] {
  switch (condition) {
    case 'clearanceMm':
    case 'swingDeg': {
      const { steps } = priors[condition];
      return steps.map(({ below, words }, index) => {
        const lower = steps[index + 1]?.below ?? 0;
        return { condition, words, place: { [condition]: (lower + below) / 2 } };
      });
    }
    case 'sight':
    case 'posture':
    case 'reach':
    case 'held':
      return priors[condition].steps.map(({ level, words }) => ({
        condition,
        words,
        place: { [condition]: level },
      }));
    case 'lockedFasteners':
      return [{ condition, words: 'each locked fastener', place: { lockedFasteners: 1 } }];
  }
}

const NINETY = 1.6448536269514722;
const rangeOf = (mean: number, sd: number): FactorRange => ({
  factor: Math.exp(mean),
  from: Math.exp(mean - NINETY * sd),
  to: Math.exp(mean + NINETY * sd),
});

const priorOf = (loadings: readonly AccessLoading[]): FactorRange =>
  rangeOf(
    loadings.reduce((sum, { steps, mean }) => sum + steps * mean, 0),
    Math.hypot(...loadings.map(({ steps, sd }) => steps * sd)),
  );

/**
 * Access factors: for each level of each condition the factor believed before (from the shop's table), and the one its own
 * history has moved it to, each with a 90 % interval.
 *
 * The model has normal priors on increments between levels; a level's factor is exp of the sum of the increments down to
 * it, so their covariance counts.
 */
export function accessPosterior(predictor: HoursPredictor): AccessFactor[] {
  const { accessPriors } = predictor.model;
  return ACCESS_CONDITIONS.flatMap((condition) =>
    levelsOf(condition, accessPriors).map((level) => {
      const loadings = accessLoadings(level.place, FREE_BENCH, accessPriors);
      const { mean, sd, items } = predictor.combination(
        loadings.map(({ increment, steps, ...prior }) => ({
          name: `access ${increment}`,
          value: steps,
          prior,
        })),
      );
      return { ...level, prior: priorOf(loadings), posterior: rangeOf(mean, sd), items };
    }),
  );
}
