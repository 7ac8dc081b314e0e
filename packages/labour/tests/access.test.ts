import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ACCESS_PRIORS,
  type AccessConditions,
  type AccessPriors,
  accessEffect,
  accessLoadings,
  FREE_BENCH,
} from '../src/index.ts';
import { deepFreeze } from './freeze.ts';

const places = fc.record<AccessConditions>(
  {
    clearanceMm: fc.integer({ min: 0, max: 500 }),
    sight: fc.constantFrom('direct', 'mirror', 'feel'),
    posture: fc.constantFrom('upright', 'bent', 'lying'),
    reach: fc.constantFrom('forearm', 'arm'),
    swingDeg: fc.integer({ min: 0, max: 120 }),
    held: fc.boolean(),
    lockedFasteners: fc.integer({ min: 0, max: 20 }),
  },
  { requiredKeys: [] },
);

const onBench = (conditions: AccessConditions) => accessEffect(conditions, FREE_BENCH);
const lnFactor = (conditions: AccessConditions) => onBench(conditions).mean;

describe('access effect', () => {
  it('has the prior factor of every level of the table, the boundaries belonging to the easier level', () => {
    const clearance = [300, 299.9, 200, 199.9, 120, 119.9, 0];
    expect(clearance.map((clearanceMm) => lnFactor({ clearanceMm }).toFixed(2))).toEqual([
      '0.00',
      '0.08',
      '0.08',
      '0.23',
      '0.23',
      '0.40',
      '0.40',
    ]);
    expect([60, 59, 30, 29].map((swingDeg) => lnFactor({ swingDeg }).toFixed(2))).toEqual([
      '0.00',
      '0.08',
      '0.08',
      '0.20',
    ]);
    expect(lnFactor({ sight: 'mirror' })).toBeCloseTo(0.12, 12);
    expect(lnFactor({ sight: 'feel' })).toBeCloseTo(0.25, 12);
    expect(lnFactor({ posture: 'bent' })).toBeCloseTo(0.05, 12);
    expect(lnFactor({ posture: 'lying' })).toBeCloseTo(0.12, 12);
    expect(lnFactor({ reach: 'arm' })).toBeCloseTo(0.1, 12);
    expect(lnFactor({ held: true })).toBeCloseTo(0.18, 12);
    expect([0, 1, 10, 11, 40].map((lockedFasteners) => lnFactor({ lockedFasteners }))).toEqual([
      0, 0.02, 0.2, 0.2, 0.2,
    ]);
  });

  it('adds the variance of each increment, the count squared for locked fasteners', () => {
    expect(onBench({ clearanceMm: 100 }).variance).toBeCloseTo(3 * 0.15 ** 2, 12);
    expect(onBench({ lockedFasteners: 4 }).variance).toBeCloseTo((4 * 0.02) ** 2, 12);
  });

  it('costs nothing where the place is the one the standard was stated for', () => {
    fc.assert(
      fc.property(places, (place) => {
        expect(accessEffect(place, place)).toEqual({ mean: 0, variance: 0, parts: [] });
      }),
    );
  });

  it('is none when it is not said what the standard was stated for, or nothing is known of the place', () => {
    expect(accessEffect({ sight: 'feel' }, undefined)).toEqual({ mean: 0, variance: 0, parts: [] });
    expect(accessEffect(undefined, FREE_BENCH).mean).toBe(0);
    expect(accessEffect({}, FREE_BENCH).mean).toBe(0);
    expect(accessEffect({ sight: 'feel' }, { reach: 'arm' }).mean).toBe(0);
    expect(accessLoadings({ sight: 'feel' }, undefined)).toEqual([]);
  });

  it('turns its sign when place and standard change places, and keeps its variance', () => {
    fc.assert(
      fc.property(places, places, (one, other) => {
        const there = accessEffect(one, other);
        const back = accessEffect(other, one);
        expect(there.mean).toBeCloseTo(-back.mean, 12);
        expect(there.variance).toBeCloseTo(back.variance, 12);
      }),
    );
  });

  it('has parts that multiply to the whole factor', () => {
    fc.assert(
      fc.property(places, places, (one, other) => {
        const { mean, parts } = accessEffect(one, other);
        const product = parts.reduce((all, { factor }) => all * factor, 1);
        expect(product).toBeCloseTo(Math.exp(mean), 12);
      }),
    );
  });

  const worse: [string, (place: AccessConditions) => AccessConditions][] = [
    ['clearance', (place) => ({ ...place, clearanceMm: (place.clearanceMm ?? 300) * 0.6 })],
    ['sight', (p) => ({ ...p, sight: p.sight === 'direct' ? 'mirror' : 'feel' })],
    ['posture', (p) => ({ ...p, posture: p.posture === 'upright' ? 'bent' : 'lying' })],
    ['reach', (place) => ({ ...place, reach: 'arm' })],
    ['swing', (place) => ({ ...place, swingDeg: (place.swingDeg ?? 60) * 0.6 })],
    ['held', (place) => ({ ...place, held: true })],
    ['locked', (p) => ({ ...p, lockedFasteners: (p.lockedFasteners ?? 0) + 1 })],
  ];
  it.each(worse)('never falls when %s gets worse', (_, worsen) => {
    fc.assert(
      fc.property(places, (place) => {
        const before = { ...FREE_BENCH, ...place };
        expect(lnFactor(worsen(before))).toBeGreaterThanOrEqual(lnFactor(before) - 1e-12);
      }),
    );
  });

  it('takes the table of the shop instead of its own, and changes neither table nor place', () => {
    const priors: AccessPriors = deepFreeze({
      ...structuredClone(ACCESS_PRIORS),
      lockedFasteners: { each: { mean: 0.05, sd: 0.01 }, first: 2 },
    });
    const place = deepFreeze({ lockedFasteners: 5 });
    expect(accessEffect(place, FREE_BENCH, priors).mean).toBeCloseTo(0.1, 12);
  });

  it('names what it refuses, the value and what is needed', () => {
    for (const clearanceMm of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => onBench({ clearanceMm })).toThrow(RangeError);
    }
    expect(() => onBench({ swingDeg: 361 })).toThrow('swingDeg must be 0 to 360; got 361');
    expect(() => onBench({ lockedFasteners: 1.5 })).toThrow(RangeError);
    expect(() => onBench({ sight: 'smell' as 'feel' })).toThrow('direct, mirror, feel; got smell');
    const negative = {
      ...ACCESS_PRIORS,
      lockedFasteners: { each: { mean: -0.1, sd: 0.02 }, first: 10 },
    };
    expect(() => accessEffect({ lockedFasteners: 1 }, FREE_BENCH, negative)).toThrow(RangeError);
    const [first, ...rest] = ACCESS_PRIORS.clearanceMm.steps;
    const disordered = {
      ...ACCESS_PRIORS,
      clearanceMm: { best: 'free', steps: [...rest, ...(first ? [first] : [])] },
    };
    expect(() => accessEffect({ clearanceMm: 1 }, FREE_BENCH, disordered)).toThrow('bounds');
  });

  it('answers the example of the docstrings', () => {
    expect(accessEffect({ reach: 'arm' }, { reach: 'forearm' }).mean).toBe(0.1);
    expect(accessLoadings({ reach: 'arm' }, { reach: 'forearm' })).toEqual([
      { increment: 'reach:1', steps: 1, mean: 0.1, sd: 0.1 },
    ]);
  });
});
