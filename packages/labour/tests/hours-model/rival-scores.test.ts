import { describe, expect, it } from 'vitest';
import { scoreForecast, scoreOf } from '../../src/hours-model/forecast-score.ts';
import type { RivalForecast } from '../../src/hours-model/rivals.ts';
import { type HoursEstimate, type Rival, Sample } from '../../src/index.ts';

/** What the model says each time. */
const ours = {
  ...{ p10: 4, p50: 5, p80: 6, p90: 7 },
  predictive: { location: Math.log(5), scale: 0.4, df: Infinity },
} as HoursEstimate;

function stated(values: readonly number[], times = 1): RivalForecast {
  const sample = Sample.of(values);
  const at = (p: number) => sample.quantile(p) * times;
  return { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90: at(0.9), sample, times };
}

/** What one rival scores that states a sample each time, and the clock says these. */
function scoreOfRival(values: readonly number[], clocked: readonly number[], times = 1) {
  const rival: Rival = 'mean';
  const forecasts = clocked.map((hours) =>
    scoreForecast(hours, ours, new Map([[rival, stated(values, times)]])),
  );
  return scoreOf(forecasts).rivals.find((one) => one.rival === rival)!;
}

describe('a rival is scored whole', () => {
  it('by the CRPS of its own past errors, times what it states, beside the model’s on the same jobs', () => {
    // By hand: ratios 0.5, 1, 2 times 4 h are 2, 4, 8 h. At 5 h mean|X − y| = (3 + 1 + 3)/3, ½·mean|X − X′| = (2 + 6 + 4)/9.
    const score = scoreOfRival([0.5, 1, 2], [5], 4);
    expect(score.crps).toBeCloseTo(7 / 3 - 12 / 9, 14);
    expect(score.modelCrps).toBe(scoreForecast(5, ours, new Map()).crps);
  });

  it('by the tenths of its forecast: one between two of its numbers lies there whole, on a border half to each', () => {
    const ten = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    // Under all, over all, over three of ten.
    expect(scoreOfRival(ten, [0.5, 11, 3.5]).pit).toEqual([1, 0, 0.5, 0.5, 0, 0, 0, 0, 0, 1]);
    // Over one of three: 0.333, in the fourth tenth.
    expect(scoreOfRival([1, 2, 3], [1.5]).pit).toEqual([0, 0, 0, 1, 0, 0, 0, 0, 0, 0]);
  });

  it('and one that took as long as past ones is spread over them', () => {
    const { pit } = scoreOfRival([1, 2, 2, 2, 5], [2]);
    // From 0.2 to 0.8: six tenths alike.
    const expected = [0, 0, 1, 1, 1, 1, 1, 1, 0, 0].map((one) => one / 6);
    for (const [tenth, count] of pit!.entries()) expect(count).toBeCloseTo(expected[tenth]!, 12);
    for (const count of scoreOfRival([2, 2], [2]).pit!) expect(count).toBeCloseTo(0.1, 12);
  });

  it('an honest one has even tenths and, for many past jobs, the score of the true distribution', () => {
    // Each of 1,000 middles of equal parts of 0 to 1 in turn, against a forecast of the same 1,000. CRPS of an even
    // distribution on 0 to 1 at y: y² − y + 1/3 (Gneiting & Raftery 2007, eq. 20, integrated); its mean over y: 1/6.
    const even = Array.from({ length: 1000 }, (_, index) => (index + 0.5) / 1000);
    const score = scoreOfRival(even, even);
    expect(score.crps).toBeCloseTo(1 / 6, 5);
    for (const count of score.pit!) expect(count).toBeCloseTo(100, 9);
  });

  it('says nothing of what it said nothing about', () => {
    const [none] = scoreOf([scoreForecast(3, ours, new Map())]).rivals;
    expect(none).toMatchObject({ items: 0, crps: undefined, modelCrps: undefined, pit: undefined });
  });
});
