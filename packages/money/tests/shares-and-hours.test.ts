import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  agreed,
  allocate,
  type BilledTimeRule,
  billedHours,
  billedHoursOf,
  billedTime,
  minor,
  sumOf,
  withinAgreed,
} from '../src/index.ts';

const anyMinor = fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }).map(minor);
const weight = fc.bigInt({ min: 0n, max: 10n ** 6n }).map((value) => `${value}.${value % 10n}`);

test('shares add to the whole, and none is a unit or more from its exact share', () => {
  fc.assert(
    fc.property(anyMinor, fc.array(weight, { minLength: 1, maxLength: 12 }), (total, weights) => {
      fc.pre(weights.some((text) => Number(text) > 0));
      const shares = allocate(total, Object.freeze(weights));
      expect(sumOf(shares)).toBe(total);
      const tenths = weights.map((text) => BigInt(text.replace('.', '')));
      const sum = tenths.reduce((all, part) => all + part, 0n);
      shares.forEach((share, index) => {
        const difference = share * sum - total * (tenths[index] ?? 0n);
        expect(difference < sum && difference > -sum).toBe(true);
        if (tenths[index] === 0n) {
          expect(share).toBe(0n);
        }
      });
    }),
    { numRuns: 2000 },
  );
});

test('shares that cannot be made are refused', () => {
  expect(() => allocate(minor(1n), [])).toThrow('give at least one weight above 0');
  expect(() => allocate(minor(1n), ['0', '0'])).toThrow('give at least one weight above 0');
  expect(() => allocate(minor(1n), ['1', '-1'])).toThrow('weight of -1');
});

test.each([
  [0, { step: '0.1', rounding: 'up', minimum: '0.5' }, '0.0'],
  [360, { step: '0.1', rounding: 'up' }, '0.1'],
  [361, { step: '0.1', rounding: 'up' }, '0.2'],
  [180, { step: '0.1', rounding: 'nearest' }, '0.1'],
  [179, { step: '0.1', rounding: 'nearest' }, '0.0'],
  [4000, { step: '0.25', rounding: 'up' }, '1.25'],
  [1, { step: '1', rounding: 'up', minimum: '0.25' }, '1.00'],
] as const)('%d s by %j are %s h', (seconds, rule, hours) => {
  expect(billedHours(seconds, rule)).toBe(hours);
});

test('billed time is monotone; up never bills less than clocked, nearest is within half a step', () => {
  const seconds = fc.integer({ min: 0, max: 10_000_000 });
  fc.assert(
    fc.property(seconds, seconds, (one, other) => {
      const up = (value: number) => Number(billedHours(value, { step: '0.1', rounding: 'up' }));
      const near = (value: number) =>
        Number(billedHours(value, { step: '0.1', rounding: 'nearest' }));
      expect(up(Math.max(one, other))).toBeGreaterThanOrEqual(up(Math.min(one, other)));
      expect(up(one) * 3600).toBeGreaterThan(one - 0.001);
      expect(up(one) * 3600).toBeLessThan(one + 360);
      expect(Math.abs(near(one) * 3600 - one)).toBeLessThanOrEqual(180.001);
    }),
    { numRuns: 1000 },
  );
});

test('a minimum only ever adds, to no more than itself, to nothing that was not clocked, and says when it did', () => {
  const seconds = fc.integer({ min: 0, max: 100_000 });
  const hundredths = fc.integer({ min: 1, max: 800 });
  fc.assert(
    fc.property(
      seconds,
      hundredths,
      fc.constantFrom('up' as const, 'nearest' as const),
      (clocked, least, rounding) => {
        const minimum = (least / 100).toFixed(2);
        const without = Number(billedHours(clocked, { step: '0.1', rounding }));
        const { hours, byMinimum } = billedTime(clocked, { step: '0.1', rounding, minimum });
        expect(Number(hours)).toBe(clocked === 0 ? 0 : Math.max(without, Number(minimum)));
        expect(byMinimum).toBe(clocked > 0 && without < Number(minimum));
      },
    ),
    { numRuns: 1000 },
  );
});

test('hours that are foretold are billed as so many seconds on the clock are', () => {
  const rounding = fc.constantFrom('up' as const, 'nearest' as const);
  const step = fc.constantFrom('0.01', '0.05', '0.1', '0.25', '0.33', '0.5', '1');
  const minimum = fc.option(fc.constantFrom('0.25', '0.5', '1.0'), { nil: undefined });
  const rules = new Map<string, BilledTimeRule>();
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 4_000_000 }), step, rounding, minimum, (...given) => {
      const [seconds, by, to, least] = given;
      const key = `${by} ${to} ${least}`;
      const rule = rules.get(key) ?? { step: by, rounding: to, ...(least && { minimum: least }) };
      rules.set(key, rule);
      // Half a second off is the same second.
      for (const off of seconds === 0 ? [0] : [-0.49, 0, 0.49])
        expect(billedHoursOf(rule)((seconds + off) / 3600)).toBe(
          Number(billedHours(seconds, rule)),
        );
    }),
    { numRuns: 2000 },
  );
  const least = billedHoursOf({ step: '0.1', rounding: 'nearest', minimum: '1.0' });
  expect([0, 1e-9, 0.2, 1.04, 1.06].map(least)).toEqual([0, 1, 1, 1, 1.1]);
  expect(() => billedHoursOf({ step: '0', rounding: 'up' })).toThrow('a step above 0');
});

test.each([[-1], [1.5], [Number.NaN], [Number.POSITIVE_INFINITY]])('refuses %d seconds', (bad) => {
  expect(() => billedHours(bad, { step: '0.1', rounding: 'up' })).toThrow(`Cannot bill ${bad}`);
});

test('a step or minimum that bills nothing is refused', () => {
  expect(() => billedHours(1, { step: '0', rounding: 'up' })).toThrow('a step above 0');
  expect(() => billedHours(1, { step: '0.1', rounding: 'up', minimum: '-1' })).toThrow('minimum');
});

const day = (number: number) => new Date(Date.UTC(2026, 2, number));
const yes = (id: string, scope: string, ceiling: bigint, on: number) => ({
  id,
  scope,
  ceiling: minor(ceiling),
  decidedAt: day(on),
});

test('ceilings of different things add; a later decision on the same thing replaces the earlier', () => {
  const first = yes('a', 'quote', 150000n, 1);
  const revised = yes('b', 'quote', 190000n, 2);
  const finding = yes('c', 'finding 1', 42000n, 3);
  const withdrawn = yes('d', 'finding 1', 0n, 4);
  expect(agreed([])).toBe(0n);
  expect(agreed([first, revised, finding])).toBe(232000n);
  expect(agreed([finding, revised, first])).toBe(232000n);
  expect(agreed([withdrawn, first, finding, revised])).toBe(190000n);
  expect(agreed([yes('z', 'quote', 5n, 1), first])).toBe(5n);
  expect(() => agreed([yes('a', 'quote', -1n, 1)])).toThrow('Cannot agree up to -1');
});

test('the part within and the part beyond add to the amount', () => {
  const ceiling = fc.bigInt({ min: 0n, max: 10n ** 12n }).map(minor);
  fc.assert(
    fc.property(anyMinor, ceiling, (billed, most) => {
      const { within, beyond } = withinAgreed({ billed, ceiling: most });
      expect(within + beyond).toBe(billed);
      expect(within <= most && beyond >= 0n).toBe(true);
    }),
  );
});
