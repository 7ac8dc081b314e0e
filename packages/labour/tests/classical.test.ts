import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { classicalEstimate, type Estimate, hours, type PastJob } from '../src/index.ts';
import { deepFreeze } from './freeze.ts';

const jobs = (...values: number[]): PastJob[] => values.map((value) => ({ hours: hours(value) }));
const manyHours = fc.array(fc.double({ min: 0.05, max: 200, noNaN: true }), {
  minLength: 2,
  maxLength: 30,
});

function answer(past: readonly PastJob[]): Estimate {
  const found = classicalEstimate(deepFreeze(past));
  if (found.kind !== 'estimate') throw new Error(found.sentence);
  return found;
}
const reason = (found: Estimate, kind: string) => found.because.find((one) => one.kind === kind);

describe('the classical answer', () => {
  it('has quantiles that scale with the hours', () => {
    fc.assert(
      fc.property(manyHours, fc.double({ min: 0.1, max: 10, noNaN: true }), (values, k) => {
        const one = answer(jobs(...values));
        const scaled = answer(jobs(...values.map((value) => value * k)));
        for (const figure of ['p10', 'p50', 'mean', 'p80', 'p90'] as const) {
          expect(scaled[figure] / (one[figure] * k)).toBeCloseTo(1, 9);
        }
      }),
    );
  });

  it('does not care in which order the jobs came', () => {
    const shuffled = manyHours.chain((all) =>
      fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length })),
    );
    fc.assert(
      fc.property(shuffled, ([one, other]) => {
        expect(answer(jobs(...other))).toEqual(answer(jobs(...one)));
      }),
    );
  });

  it('says what is missing below two finished jobs', () => {
    for (const own of [jobs(), jobs(2), [...jobs(2), { hours: hours(3), censored: true }]]) {
      expect(classicalEstimate(own)).toMatchObject({ kind: 'not-enough-history', needed: 2 });
    }
  });

  it('says so when equal times leave no range', () => {
    const equal = answer(jobs(2, 2, 2));
    expect(equal.p90).toBeCloseTo(2, 12);
    expect(reason(equal, 'no-spread')?.sentence).toContain('no range');
  });

  it('leaves lower bounds out and says how many', () => {
    const bounds: PastJob[] = [1, 50].map((value) => ({ hours: hours(value), censored: true }));
    const beside = answer([...jobs(2, 3), ...bounds]);
    expect(beside.predictive).toEqual(answer(jobs(2, 3)).predictive);
    expect(reason(beside, 'censored-left-out')).toMatchObject({ jobs: 2 });
    expect(reason(beside, 'censored-left-out')?.sentence).toContain('lower bound');
  });

  it('refuses hours that have no logarithm, and a spread too wide to state', () => {
    for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => hours(value)).toThrow(RangeError);
      expect(() => classicalEstimate([{ hours: value } as PastJob])).toThrow(RangeError);
    }
    expect(() => classicalEstimate(jobs(1e-300, 1e300))).toThrow(RangeError);
  });
});
