import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { docstringExamples, evaluate } from '../../../tests/support/docstring-examples.ts';
import * as labour from '../src/index.ts';
import {
  accuracyOf,
  biggestMissesFirst,
  coverageOf,
  coverageSentence,
  missOf,
  ratioOf,
  sampleQuantile,
  wilsonInterval,
} from '../src/index.ts';
import { deepFreeze as frozen } from './freeze.ts';

describe('the Wilson interval', () => {
  it.each([
    // Newcombe 1998, Statistics in Medicine 17, 857–872, table I, method 3: four decimals as printed.
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('of %i in %i, as the published worked example prints it', (within, of, low, high) => {
    const interval = wilsonInterval(within, of);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });

  it.each([
    // scipy 1.17.1, scipy.stats.binomtest(k, n).proportion_ci(0.95, 'wilson').
    [81, 263, 0.2552885198782742, 0.36620957698280004],
    [15, 148, 0.06238639953073629, 0.16048724172330803],
    [0, 20, 0, 0.16112515805281935],
    [1, 29, 0.006113214292762667, 0.17175521879320282],
    [8, 10, 0.4901624715366418, 0.9433178485456248],
    [0, 1, 0, 0.7934506856227626],
    [1, 1, 0.20654931437723745, 1],
    [24, 30, 0.6269430358685175, 0.9049489282271013],
    [160, 200, 0.7391448134346212, 0.8495479907390189],
  ])('of %i in %i, to 1e-12 as the reference library has it', (within, of, low, high) => {
    const interval = wilsonInterval(within, of);
    expect(Math.abs(interval.low - low)).toBeLessThan(1e-12);
    expect(Math.abs(interval.high - high)).toBeLessThan(1e-12);
  });

  it('holds the share, mirrors its complement, and closes in with more', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (of, share) => {
          const within = Math.round(of * share);
          const { low, high } = wilsonInterval(within, of);
          const mirrored = wilsonInterval(of - within, of);
          expect(low).toBeLessThanOrEqual(within / of);
          expect(high).toBeGreaterThanOrEqual(within / of);
          expect(mirrored.low).toBeCloseTo(1 - high, 12);
          const tenfold = wilsonInterval(within * 10, of * 10);
          expect(tenfold.high - tenfold.low).toBeLessThan(high - low);
        },
      ),
    );
  });

  it.each([
    [1, 0],
    [-1, 3],
    [4, 3],
    [0.5, 3],
    [1, Number.NaN],
  ])('refuses %d of %d', (within, of) => {
    expect(() => wilsonInterval(within, of)).toThrow(RangeError);
  });
});

describe('sample quantiles', () => {
  it('as R and numpy have them: quantile(c(1,2,4,8,16), …, type = 7)', () => {
    const values = frozen([16, 1, 8, 2, 4]);
    expect([0, 0.25, 0.5, 0.75, 1].map((p) => sampleQuantile(values, p))).toEqual([1, 2, 4, 8, 16]);
    // numpy.quantile([1, 2, 3, 4], [0.1, 0.25, 0.5, 0.9]).
    const four = [1, 2, 3, 4];
    expect(sampleQuantile(four, 0.1)).toBeCloseTo(1.3, 12);
    expect(sampleQuantile(four, 0.25)).toBeCloseTo(1.75, 12);
    expect(sampleQuantile(four, 0.9)).toBeCloseTo(3.7, 12);
    expect(() => sampleQuantile([], 0.5)).toThrow(RangeError);
    expect(() => sampleQuantile([1], 1.5)).toThrow(RangeError);
  });
});

const item = (actual: number, over: { month?: string; task?: string; model?: string } = {}) =>
  frozen({ p10: 1, p50: 2, p90: 4, actual, month: '2026-01', task: 'hose', model: 'T-2', ...over });
const many = (within: number, outside: number) => [
  ...Array.from({ length: within }, () => item(2)),
  ...Array.from({ length: outside }, () => item(9)),
];

describe('coverage', () => {
  it('counts both ends in, and tells under from over', () => {
    const all = frozen([item(1), item(4), item(0.9), item(4.1), item(7)]);
    expect(coverageOf(all)).toMatchObject({ items: 5, within: 2, under: 1, over: 2 });
    expect(coverageOf([])).toBeNull();
  });

  it.each([
    [
      8,
      2,
      'too_few',
      '8 of 10 came out between P10 and P90; eight in ten should. So few say little: in the long run it may be anything from 49 % to 94 %.',
    ],
    [32, 8, 'agrees', 'That agrees'],
    [10, 30, 'too_narrow', '30 took longer than P90'],
    [40, 0, 'too_wide', 'wider than they need be'],
    // 0 of 5: at most 43 % in the long run, so even five are enough to say so.
    [0, 5, 'too_narrow', 'chance does not explain it'],
    // 0 of 1 is what one honest range in five does; the interval alone (at most 79 %) would convict it.
    [0, 1, 'too_few', 'So few say little'],
  ])('%i within and %i outside: %s', (within, outside, verdict, words) => {
    const coverage = coverageOf(many(within, outside));
    expect(coverage?.verdict).toBe(verdict);
    expect(coverage && coverageSentence(coverage)).toContain(words);
  });
});

describe('accuracy', () => {
  it('by month without a gap, by task and by model with the most items first; parts add to the whole', () => {
    const all = frozen([
      item(2, { month: '2026-02', task: 'belt' }),
      item(6, { month: '2025-11' }),
      item(3, { month: '2025-11' }),
      item(0.5, { month: '2025-11', model: 'Tern' }),
    ]);
    const found = accuracyOf(all);
    expect(
      found.months.map(({ month, coverage }) => [month, coverage?.within, coverage?.items]),
    ).toEqual([
      ['2025-11', 1, 3],
      ['2025-12', undefined, undefined],
      ['2026-01', undefined, undefined],
      ['2026-02', 1, 1],
    ]);
    expect(found.byTask.map(({ key, coverage }) => [key, coverage.items])).toEqual([
      ['hose', 3],
      ['belt', 1],
    ]);
    expect(found.byModel.map(({ key }) => key)).toEqual(['T-2', 'Tern']);
    // 3, 1.5, 0.25 and 1 over the quoted 2: median of 0.25, 1, 1.5, 3.
    expect(found.ratio?.median).toBe(1.25);
    expect(found.coverage).toMatchObject({ items: 4, within: 2, under: 1, over: 1 });
  });

  it('says nothing of nothing, and refuses what cannot be compared', () => {
    expect(accuracyOf([])).toEqual({
      coverage: null,
      ratio: null,
      months: [],
      byTask: [],
      byModel: [],
    });
    expect(() => accuracyOf([item(1, { month: '2026-13' })])).toThrow('2026-03');
    expect(() => ratioOf([{ p10: 0, p50: 0, p90: 0, actual: 1 }])).toThrow('above 0');
  });

  it('the biggest misses come first, and those inside by their distance', () => {
    const all = frozen([item(2), item(5), item(0.5), item(3.9), item(9)]);
    expect(biggestMissesFirst(all).map(({ actual }) => actual)).toEqual([9, 5, 0.5, 3.9, 2]);
    expect(all.map(missOf)).toEqual([0, 1, 0.5, 0, 5]);
  });
});

describe('the examples in the docstrings', () => {
  const examples = docstringExamples(join(import.meta.dirname, '../src')).filter(({ file }) =>
    ['accuracy.ts', 'coverage.ts'].includes(file),
  );
  it('are there', () => expect(examples).toHaveLength(9));
  it.each(examples)('$call', ({ call, value }) => {
    expect(evaluate(call, labour)).toEqual(evaluate(value, labour));
  });
});
