import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hoursLeft, hoursQuantile } from '../src/index.ts';

const log = { location: Math.log(2), scale: 0.5, df: Number.POSITIVE_INFINITY };
/** Draws at the middles of a thousand equal parts: as good as the distribution itself. */
const even = (of = log) =>
  Float64Array.from({ length: 1000 }, (_, index) => hoursQuantile(of, (index + 0.5) / 1000));
const mean = (draws: ArrayLike<number>) =>
  Array.from(draws).reduce((sum, each) => sum + each, 0) / draws.length;

describe('hours left of an item, given what was clocked', () => {
  test('nothing clocked: its hours', () => {
    expect(hoursLeft(log, even(), 0)).toEqual(even());
  });

  test('the median of what is left is the conditional one', () => {
    // P(H > m | H > 2) = 1/2 at the median 2, so P(H > m) = 1/4: m is the upper quartile.
    const left = hoursLeft(log, [hoursQuantile(log, 0.5)], 2)[0];
    expect(left).toBeCloseTo(hoursQuantile(log, 0.75) - 2, 12);
  });

  test.each([0.5, 2, 3, 6, 12])(
    'after %f h it agrees with throwing away what is over',
    (clocked) => {
      // The plain way: of very many even draws, keep those above, take the clocked hours off.
      const many = Float64Array.from({ length: 400_000 }, (_, index) =>
        hoursQuantile(log, (index + 0.5) / 400_000),
      );
      const kept = many.filter((hours) => hours > clocked).map((hours) => hours - clocked);
      expect(mean(hoursLeft(log, even(), clocked))).toBeCloseTo(mean(kept), 1);
    },
  );

  test('a Student-t too', () => {
    const wide = { location: 0, scale: 0.4, df: 5 };
    const left = hoursLeft(wide, [hoursQuantile(wide, 0.5)], 1)[0];
    expect(left).toBeCloseTo(hoursQuantile(wide, 0.75) - 1, 9);
  });

  test('far past anything that was thought possible it still answers', () => {
    for (const clocked of [100, 1e4, 1e8])
      for (const left of hoursLeft(log, even(), clocked))
        expect(left >= 0 && Number.isFinite(left)).toBe(true);
    // Ten scales out the tail of a normal is all but exponential with its hazard there, 10.0981 (computed as
    // φ(10)/Φ(−10)) as the rate, so the median of what is over lies ln 2 / 10.0981 further.
    const clocked = Math.exp(log.location + 10 * log.scale);
    const [median = 0] = hoursLeft(log, [2], clocked);
    const z = (Math.log(clocked + median) - log.location) / log.scale;
    expect(z - 10).toBeCloseTo(Math.LN2 / 10.0981, 3);
  });

  test('a certain item has the rest left, and none once it is over', () => {
    const certain = { location: 0, scale: 0, df: Number.POSITIVE_INFINITY };
    expect([...hoursLeft(certain, [1], 0.25)]).toEqual([0.75]);
    expect([...hoursLeft(certain, [1], 3)]).toEqual([0]);
  });

  test('what is clocked and left together grows with the clock, and keeps the order of the draws', () => {
    const hours = fc.double({ min: 0.01, max: 20, noNaN: true });
    fc.assert(
      fc.property(hours, hours, (one, other) => {
        const [less, more] = [Math.min(one, other), Math.max(one, other)];
        const [first, second] = [hoursLeft(log, even(), less), hoursLeft(log, even(), more)];
        for (let i = 0; i < 1000; i += 50)
          expect(second[i]! + more).toBeGreaterThanOrEqual(first[i]! + less - 1e-6);
        for (let i = 1; i < 1000; i += 1)
          expect(second[i]!).toBeGreaterThanOrEqual(second[i - 1]! - 1e-6);
      }),
      { numRuns: 25 },
    );
  });

  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])(
    '%f clocked hours are refused',
    (clocked) => {
      expect(() => hoursLeft(log, [1], clocked)).toThrow('Clocked hours must be 0 or more');
    },
  );
});
