import { describe, expect, it } from 'vitest';
import {
  FREE_BENCH,
  fitHours,
  type HoursEstimate,
  HoursPredictor,
  type PackageItem,
  packageItems,
  simulateSums,
  sumMoments,
  sumOfItems,
} from '../src/index.ts';
import { deepFreeze } from './freeze.ts';

const lognormal = (
  location: number,
  scale: number,
  shared: PackageItem['shared'] = [],
): PackageItem => ({
  predictive: { location, scale, df: Number.POSITIVE_INFINITY },
  mean: Math.exp(location + scale ** 2 / 2),
  p80: Math.exp(location + 0.8416212335729143 * scale),
  shared,
});
const priorsAlone = new HoursPredictor(fitHours([]));
const estimated = (name: string, standardHours: number): PackageItem & HoursEstimate => {
  const found = priorsAlone.estimate({
    task: name,
    standardHours,
    mechanics: [],
    place: { ...FREE_BENCH, clearanceMm: 150, held: true },
  });
  const [item] = packageItems([found]);
  if (item === undefined) throw new Error('no item');
  return { ...item, ...found };
};

describe('sum of items', () => {
  it('gives the same digits for the same seed, others for another', () => {
    const items = deepFreeze([estimated('a', 1), estimated('b', 2), estimated('b', 2)]);
    const once = sumOfItems(items, { seed: 7 });
    expect(sumOfItems(items, { seed: 7 })).toEqual(once);
    expect(sumOfItems(items, { seed: 8 }).p80).not.toBe(once.p80);
  });

  it('of one item is that item', () => {
    const one = estimated('a', 2);
    const sum = sumOfItems([one], { seed: 1, draws: 400_000 });
    for (const figure of ['p10', 'p50', 'p80', 'p90'] as const) {
      expect(sum[figure] / one[figure]).toBeCloseTo(1, 2);
    }
    expect(sum.mean).toBe(one.mean);
    expect(sum.sumOfP80).toBe(one.p80);
  });

  it('of certain items is their sum, and of none is nothing', () => {
    const certain = [lognormal(Math.log(2), 0), lognormal(Math.log(3), 0)];
    const sum = sumOfItems(certain, { seed: 1, draws: 10 });
    for (const figure of Object.values(sum)) expect(figure).toBeCloseTo(5, 12);
    expect(sumOfItems([], { seed: 1 })).toEqual({
      p10: 0,
      p50: 0,
      mean: 0,
      p80: 0,
      p90: 0,
      sumOfP80: 0,
    });
  });

  it('of items that share everything has the sum of the P80s as its P80: no gain from adding up', () => {
    const shared = [{ component: 'shop', loading: 0.5 }];
    const items = [lognormal(0, 0.5, shared), lognormal(1, 0.5, shared)];
    const { p80, sumOfP80 } = sumOfItems(items, { seed: 3, draws: 400_000 });
    expect(p80 / sumOfP80).toBeCloseTo(1, 2);
  });

  it('of independent items stays below the sum of their P80s, and sharing widens it', () => {
    const apart = Array.from({ length: 20 }, () => lognormal(0, 0.5));
    const bound = Array.from({ length: 20 }, () =>
      lognormal(0, 0.5, [{ component: 'shop', loading: 0.4 }]),
    );
    const one = sumOfItems(apart, { seed: 5 });
    const other = sumOfItems(bound, { seed: 5 });
    expect(one.p80).toBeLessThan(one.sumOfP80);
    expect(other.p80).toBeGreaterThan(one.p80);
    expect(other.p90 - other.p10).toBeGreaterThan(2 * (one.p90 - one.p10));
  });

  it('has the exact moments of a sum of lognormals, shared or not', () => {
    const items = [
      lognormal(0, 0.4, [{ component: 'shop', loading: 0.3 }]),
      lognormal(0.5, 0.5, [{ component: 'shop', loading: 0.2 }]),
      lognormal(1, 0.3),
    ];
    const sums = simulateSums(items, { seed: 11, draws: 1_000_000 });
    const mean = sums.reduce((total, sum) => total + sum, 0) / sums.length;
    const variance = sums.reduce((total, sum) => total + (sum - mean) ** 2, 0) / sums.length;
    const exact = sumMoments(items);
    // Four standard errors of a mean of a million draws.
    expect(Math.abs(mean - exact.mean)).toBeLessThan(4 * Math.sqrt(exact.variance / 1e6));
    expect(variance / exact.variance).toBeCloseTo(1, 1.7);
  });

  it('refuses what it cannot draw from', () => {
    const fine = lognormal(0, 1);
    for (const seed of [-1, 1.5, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => sumOfItems([fine], { seed })).toThrow(RangeError);
    }
    for (const draws of [0, 1.5, Number.NaN, 1e7]) {
      expect(() => sumOfItems([fine], { seed: 1, draws })).toThrow(RangeError);
    }
    const bad = (change: object): PackageItem => ({
      ...fine,
      predictive: { ...fine.predictive, ...change },
    });
    for (const item of [bad({ location: Number.NaN }), bad({ scale: -1 }), bad({ df: 0 })]) {
      expect(() => sumOfItems([item], { seed: 1 })).toThrow(RangeError);
    }
    expect(() => sumOfItems([{ ...fine, mean: Number.NaN }], { seed: 1 })).toThrow(RangeError);
    const wide = lognormal(0, 0.5, [{ component: 'shop', loading: 0.6 }]);
    expect(() => sumOfItems([wide, wide], { seed: 1 })).toThrow('cannot be wider');
    expect(() => sumMoments([])).toThrow(RangeError);
    expect(() => sumMoments([bad({ df: 5 })])).toThrow(RangeError);
  });
});
