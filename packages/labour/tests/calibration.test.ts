import { describe, expect, it } from 'vitest';
import {
  ACCESS_PRIORS,
  type AccessConditions,
  accessLoadings,
  ESTIMATE_PRIORS,
  estimate,
  FREE_BENCH,
  hours,
} from '../src/index.ts';
import { gamma, seededBits, standardNormal } from '../src/random.ts';

const HARD: AccessConditions = { ...FREE_BENCH, clearanceMm: 100, sight: 'feel', held: true };

/**
 * Tasks made up from the priors themselves: m, σ and the access coefficients drawn, `past` jobs done in
 * the place `found`, one more in the place `asked`. The share of those that fell below each quantile.
 */
function sharesBelow(past: number, found: AccessConditions, asked: AccessConditions) {
  const bits = seededBits(1);
  const { shopSd, taskSd, jobSd, jobSdDf } = ESTIMATE_PRIORS;
  const tries = 4000;
  const below = { p10: 0, p50: 0, p80: 0, p90: 0 };
  for (let i = 0; i < tries; i += 1) {
    const sigma = jobSd * Math.sqrt(jobSdDf / (2 * gamma(jobSdDf / 2, bits)));
    const level = Math.hypot(shopSd, taskSd) * standardNormal(bits);
    const drawn = new Map<string, number>();
    const cost = (place: AccessConditions) =>
      accessLoadings(place, FREE_BENCH, ACCESS_PRIORS).reduce(
        (sum, { increment, steps, mean, sd }) => {
          const coefficient = drawn.get(increment) ?? mean + sd * standardNormal(bits);
          drawn.set(increment, coefficient);
          return sum + steps * coefficient;
        },
        0,
      );
    const job = (place: AccessConditions) =>
      hours(Math.exp(level + cost(place) + sigma * standardNormal(bits)));
    const jobs = Array.from({ length: past }, () => ({ hours: job(found), found }));
    const next = job(asked);
    const task = { task: 'made up', standardHours: hours(1), statedFor: FREE_BENCH, jobs };
    const answer = estimate({ task, place: asked });
    if (answer.kind !== 'estimate') throw new Error(answer.sentence);
    for (const p of ['p10', 'p50', 'p80', 'p90'] as const) below[p] += next < answer[p] ? 1 : 0;
  }
  return { ...below, tries };
}

describe('an estimate is as sure as it says', () => {
  const cases: [string, number, AccessConditions, AccessConditions][] = [
    ['no job yet, free bench', 0, FREE_BENCH, FREE_BENCH],
    ['no job yet, hard place', 0, HARD, HARD],
    ['four jobs in the same hard place', 4, HARD, HARD],
    ['four jobs on the bench, asked for a hard place', 4, FREE_BENCH, HARD],
    ['ten jobs in a hard place, asked for the bench', 10, HARD, FREE_BENCH],
  ];
  it.each(cases)(
    '%s: each quantile is passed as rarely as its name says',
    (_, past, found, asked) => {
      const { tries, ...below } = sharesBelow(past, found, asked);
      // Two points of a hundred: the binomial error of 4000 tries is below 0.8, the rest is what the
      // Student-t with added access variance approximates.
      expect(Math.abs(below.p10 / tries - 0.1)).toBeLessThan(0.02);
      expect(Math.abs(below.p50 / tries - 0.5)).toBeLessThan(0.025);
      expect(Math.abs(below.p80 / tries - 0.8)).toBeLessThan(0.02);
      expect(Math.abs(below.p90 / tries - 0.9)).toBeLessThan(0.02);
    },
  );
});
