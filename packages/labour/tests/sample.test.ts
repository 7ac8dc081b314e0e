import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pinballLoss, Sample } from '../src/index.ts';

/** The definition, term by term: mean|X − y| − ½·mean|X − X′|. */
function byDoubleSum(values: readonly number[], actual: number): number {
  let [off, apart] = [0, 0];
  for (const x of values) {
    off += Math.abs(x - actual);
    for (const other of values) apart += Math.abs(x - other);
  }
  return off / values.length - apart / values.length ** 2 / 2;
}

const finite = fc.double({ min: -1e3, max: 1e3, noNaN: true });
const some = fc.array(finite, { minLength: 1, maxLength: 40 });

describe('CRPS of a sample', () => {
  it('is the double sum of its definition', () => {
    fc.assert(
      fc.property(some, finite, (values, actual) => {
        expect(Sample.of(values).crps(actual)).toBeCloseTo(byDoubleSum(values, actual), 9);
      }),
    );
  });

  it('is twice the pinball loss over all levels, exactly', () => {
    // Gneiting & Raftery 2007, section 4.2. The quantile of a sample is flat over each 1/n, where the loss is a straight
    // line of the level as long as both lie on one side: the midpoint is exact.
    fc.assert(
      fc.property(some, finite, (values, actual) => {
        const n = values.length;
        const sum = values
          .toSorted((a, b) => a - b)
          .reduce(
            (all, quantile, index) => all + pinballLoss(actual, quantile, (index + 0.5) / n),
            0,
          );
        expect(Sample.of(values).crps(actual)).toBeCloseTo((2 * sum) / n, 9);
      }),
    );
  });

  it('scales and shifts with its unit, and stays the same however often it is asked and in whatever order it grew', () => {
    fc.assert(
      fc.property(some, finite, fc.double({ min: 0.01, max: 50, noNaN: true }), (values, y, k) => {
        const crps = Sample.of(values).crps(y);
        expect(Sample.of(values.map((x) => k * x + 3)).crps(k * y + 3)).toBeCloseTo(k * crps, 6);
        const backwards = Sample.of(values.toReversed());
        expect([backwards.crps(y), backwards.crps(y)]).toEqual([crps, crps]);
      }),
    );
  });

  it('follows a sample that grows', () => {
    const sample = Sample.of([1]);
    expect(sample.crps(3)).toBe(2);
    sample.add(5);
    expect(sample.crps(3)).toBe(byDoubleSum([1, 5], 3));
    expect(sample.size).toBe(2);
  });

  it('of equal numbers is how far they were off, to the last digit', () => {
    const equal = Sample.of(Array.from({ length: 1000 }, () => 0.1));
    expect(equal.crps(0.1)).toBe(0);
    expect(equal.crps(0.3)).toBeCloseTo(0.2, 15);
    expect(Sample.of([1e6]).crps(1e6 + 1)).toBe(1);
  });
});

describe('PIT of a sample', () => {
  it('goes from the share under to the share not over', () => {
    const sample = Sample.of([1, 2, 2, 2, 5]);
    expect(sample.pit(0.5)).toEqual({ from: 0, to: 0 });
    expect(sample.pit(2)).toEqual({ from: 0.2, to: 0.8 });
    expect(sample.pit(3)).toEqual({ from: 0.8, to: 0.8 });
    expect(sample.pit(9)).toEqual({ from: 1, to: 1 });
  });

  it('is counted one by one', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1 }),
        fc.nat(9),
        (values, actual) => {
          expect(Sample.of(values).pit(actual)).toEqual({
            from: values.filter((x) => x < actual).length / values.length,
            to: values.filter((x) => x <= actual).length / values.length,
          });
        },
      ),
    );
  });
});

it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
  'refuses %s, in it and against it',
  (wrong) => {
    expect(() => Sample.of([1, wrong])).toThrow(`A sample holds finite numbers; got ${wrong}.`);
    expect(() => Sample.of([1]).crps(wrong)).toThrow(`Actual must be finite; got ${wrong}.`);
    expect(() => Sample.of([1]).pit(wrong)).toThrow(RangeError);
  },
);

it('without numbers forecasts nothing', () => {
  expect(() => new Sample().crps(1)).toThrow('A sample without numbers forecasts nothing.');
  expect(() => new Sample().pit(1)).toThrow(RangeError);
});
