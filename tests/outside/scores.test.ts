import { describe, expect, it } from 'vitest';
import {
  crpsLogNormal,
  crpsNormal,
  pinballLoss,
  pitLogNormal,
  Sample,
  studentQuantile,
} from '../../packages/labour/src/index.ts';

/**
 * Expected values were computed independently: the closed forms of Baran & Lerch (2015, Q. J. R. Meteorol. Soc. 141) and
 * Gneiting & Raftery (2007, JASA 102), and by numerical integration of ∫(F(x) − 1{x ≥ y})² dx, which agrees to 1e-13.
 */
describe('CRPS', () => {
  it.each([
    [3, 0.1, 0.9, 1.1355264462375083],
    [1, 0, 0.5, 0.12079196206535228],
    [2, 0, 0.5, 0.647869351516029],
    [0.5, 0, 1, 0.3855809770677473],
    [10, 2, 0.3, 1.5396734429599785],
    [5, 1.5, 0.75, 0.8774909525922377],
    // The published repair times of Von Alven (1964) as a forecast: their median, and the longest of them.
    [1.931684418, 0.658392377788, 1.113965814234, 0.5948577588536582],
    [24.5, 0.658392377788, 1.113965814234, 19.184151730568527],
  ])('of %s h under a log-normal (%s, %s)', (actual, location, scale, crps) => {
    expect(crpsLogNormal(actual, location, scale) / crps).toBeCloseTo(1, 12);
  });

  it.each([
    [0, 0, 1, 0.23369497725510913],
    [-3, 0, 1, 2.4365747250863397],
    [1.5, 0.2, 0.7, 0.9223530635539529],
  ])('of %s under a normal (%s, %s)', (actual, mean, sd, crps) => {
    expect(crpsNormal(actual, mean, sd) / crps).toBeCloseTo(1, 12);
  });

  // The values that the test files of R's scoringRules hold, to their nine digits.
  it('is what scoringRules publishes', () => {
    expect(crpsNormal(-3, 0, 1)).toBeCloseTo(2.43657473, 8);
    expect(crpsLogNormal(3, 0.1, 0.9)).toBeCloseTo(1.13552645, 8);
  });

  it('of a forecast without spread is how far it was off', () => {
    expect(crpsLogNormal(5, Math.log(2), 0)).toBeCloseTo(3, 12);
    expect(crpsNormal(5, 2, 0)).toBe(3);
  });

  // Computed independently, in Python, from the definition with all n² pairs; with n·(n − 1) pairs, the estimate of what
  // the sample was drawn from, it would be 0.3: here the sample is the forecast.
  it('of a sample of five', () => {
    expect(Sample.of([1.2, 1.5, 2, 3.7, 5.1]).crps(2.4)).toBeCloseTo(0.5, 14);
  });

  const normalQuantile = (p: number) => studentQuantile(p, Infinity);

  it('of a large sample comes to the closed form of what it stands for, by 1/n and faster', () => {
    // The middles of n equal parts of a normal, against the closed form of Gneiting & Raftery 2007 and the nine digits
    // that scoringRules publishes (above).
    const missOf = (n: number, actual: number) => {
      const middles = Array.from({ length: n }, (_, k) => normalQuantile((k + 0.5) / n));
      return Math.abs(Sample.of(middles).crps(actual) - crpsNormal(actual, 0, 1));
    };
    for (const actual of [-3, 0, 1.5]) {
      expect(missOf(100, actual)).toBeLessThan(0.02);
      expect(missOf(100_000, actual)).toBeLessThan(missOf(100, actual) / 900);
    }
    const many = Array.from({ length: 100_000 }, (_, k) => normalQuantile((k + 0.5) / 100_000));
    expect(Sample.of(many).crps(-3)).toBeCloseTo(2.43657473, 4);
  });

  it('is twice the pinball loss, over all levels', () => {
    // Gneiting & Raftery 2007, section 4.2: CRPS = 2·∫ loss(τ) dτ; here by the midpoint rule.
    const steps = 20_000;
    let sum = 0;
    for (let k = 0; k < steps; k += 1) {
      const level = (k + 0.5) / steps;
      // The logistic has its quantile in closed form, so nothing of ours stands on both sides but the loss.
      sum += pinballLoss(0.7, Math.log(level / (1 - level)), level) / steps;
    }
    // CRPS of the standard logistic: y − 2·ln(logistic(y)) − 1 (Taillardat et al. 2016, Mon. Weather Rev. 144; from memory).
    const logistic = 1 / (1 + Math.exp(-0.7));
    expect(2 * sum).toBeCloseTo(0.7 - 2 * Math.log(logistic) - 1, 3);
  });
});

describe('pinball loss', () => {
  it.each([
    [10, 8, 0.8, 1.6],
    [10, 12, 0.8, 0.4],
    [10, 8, 0.5, 1],
    [10, 8, 0.9, 1.8],
    [3, 5, 0.1, 1.8],
  ])('of %s h stated as %s h at %s', (actual, quantile, level, loss) => {
    expect(pinballLoss(actual, quantile, level)).toBeCloseTo(loss, 12);
  });
});

it('the place in its own forecast is the probability of less', () => {
  expect(pitLogNormal(Math.exp(0.3), 0.3, 2)).toBeCloseTo(0.5, 14);
  // Φ(1.2815515655446004) = 0.9.
  expect(pitLogNormal(Math.exp(1.2815515655446004), 0, 1)).toBeCloseTo(0.9, 12);
});

it.each([
  () => pinballLoss(1, 1, 1),
  () => pinballLoss(Number.NaN, 1, 0.5),
  () => crpsLogNormal(0, 0, 1),
  () => crpsLogNormal(1, 0, -1),
  () => crpsNormal(1, Infinity, 1),
  () => pitLogNormal(1, 0, 0),
])('refuses what is out of range', (asked) => {
  expect(asked).toThrow(RangeError);
});
