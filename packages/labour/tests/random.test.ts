import { describe, expect, it } from 'vitest';
import {
  gamma,
  seededBits,
  splitMix64,
  standardNormal,
  uniform,
  xoshiro128,
} from '../src/random.ts';

const N = 400_000;
const draws = (draw: () => number) => Float64Array.from({ length: N }, draw);
const moment = (values: Float64Array, power: number) =>
  values.reduce((sum, value) => sum + value ** power, 0) / values.length;
const shareBelow = (values: Float64Array, bound: number) =>
  values.filter((value) => value < bound).length / values.length;

describe('random draws', () => {
  it('xoshiro128** gives the first values of its authors’ reference program for state 1, 2, 3, 4', () => {
    // Output of xoshiro128starstar.c 1.1 (Blackman & Vigna), as listed in public ports of it.
    const bits = xoshiro128([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, () => bits() >>> 0)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597,
      4258142804,
    ]);
    expect(() => xoshiro128([0, 0, 0, 0])).toThrow(RangeError);
  });

  it('SplitMix64 gives its well-known first value for state 0 (from memory)', () => {
    expect(splitMix64(0n)).toBe(0xe220a8397b1dcdafn);
  });

  it('normals have the moments and tails of the normal', () => {
    const bits = seededBits(1);
    const values = draws(() => standardNormal(bits));
    const tolerance = 4 / Math.sqrt(N);
    expect(Math.abs(moment(values, 1))).toBeLessThan(tolerance);
    expect(Math.abs(moment(values, 2) - 1)).toBeLessThan(tolerance * Math.SQRT2);
    expect(Math.abs(moment(values, 3))).toBeLessThan(tolerance * Math.sqrt(15));
    expect(Math.abs(moment(values, 4) - 3)).toBeLessThan(tolerance * Math.sqrt(96));
    // Normal distribution function at −3.5, −2, −1, 0, 1, 2 (standard tables).
    const table: [number, number][] = [
      [-3.5, 0.000233],
      [-2, 0.02275],
      [-1, 0.158655],
      [0, 0.5],
      [1, 0.841345],
      [2, 0.97725],
    ];
    for (const [bound, p] of table) {
      const error = Math.abs(shareBelow(values, bound) - p);
      expect(error).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / N));
    }
  });

  it.each([0.5, 1, 3.25, 40])('gammas of shape %d have its mean and variance', (shape) => {
    const bits = seededBits(2);
    const values = draws(() => gamma(shape, bits));
    const mean = moment(values, 1);
    expect(Math.abs(mean - shape)).toBeLessThan(4 * Math.sqrt(shape / N));
    const variance = moment(values, 2) - mean ** 2;
    const error = 4 * Math.sqrt((2 * shape ** 2 + 6 * shape) / N);
    expect(Math.abs(variance - shape)).toBeLessThan(error);
  });

  it('uniforms stay strictly inside 0 and 1', () => {
    expect(uniform(() => 0)).toBeGreaterThan(0);
    expect(uniform(() => -1)).toBeLessThan(1);
  });
});
