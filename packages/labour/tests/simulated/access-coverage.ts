import { accessPosterior, type HoursPredictor } from '../../src/index.ts';
import { type AccessTruth, trueEffect } from './places.ts';

export type AccessCoverage = {
  /** Levels of conditions that the shop's own items tell of, and those whose 90 % interval holds the truth. */
  readonly levels: number;
  readonly covered: number;
};

/** Holds the 90 % intervals of the access factors against what the shop was drawn with. */
export function accessCoverage(predictor: HoursPredictor, truth: AccessTruth): AccessCoverage {
  const seen = accessPosterior(predictor).filter(({ items }) => items > 0);
  const covered = seen.filter(({ place, posterior }) => {
    const factor = Math.exp(trueEffect(place, truth));
    return factor >= posterior.from && factor <= posterior.to;
  });
  return { levels: seen.length, covered: covered.length };
}
