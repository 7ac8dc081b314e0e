import fc from 'fast-check';
import { expect, it } from 'vitest';
import { minor, overrunAllowed } from '../src/index.ts';

it.each([
  [190_000n, {}, 0n],
  [190_000n, { sum: minor(10_000n) }, 10_000n],
  [190_000n, { percent: '10' }, 19_000n],
  [190_000n, { sum: minor(10_000n), percent: '10' }, 10_000n],
  [50_000n, { sum: minor(10_000n), percent: '10' }, 5_000n],
  [0n, { sum: minor(10_000n), percent: '10' }, 0n],
  // 7.5 % of 1.99 is 14.925 cents: rounded down.
  [199n, { percent: '7.5' }, 14n],
] as const)('of %s agreed, %o allows %s', (agreed, rule, allowed) => {
  expect(overrunAllowed(minor(agreed), rule)).toBe(allowed);
});

it('never allows more than either limit, and never less for more agreed', () => {
  const amount = fc.bigInt({ min: 0n, max: 10n ** 12n });
  const share = fc.integer({ min: 0, max: 10_000 });
  fc.assert(
    fc.property(amount, amount, amount, share, (one, more, sum, hundredths) => {
      const rule = { sum: minor(sum), percent: (hundredths / 100).toFixed(2) };
      const allowed = overrunAllowed(minor(one), rule);
      expect(allowed <= sum && allowed * 10_000n <= one * BigInt(hundredths)).toBe(true);
      expect(overrunAllowed(minor(one + more), rule) >= allowed).toBe(true);
    }),
  );
});

it.each(['-1', '100.01', '5.123', 'ten'])('refuses a share of %s', (percent) => {
  expect(() => overrunAllowed(minor(1n), { percent })).toThrow(/give 0 to 100/);
});
