import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CoreBilled, coreCredit, minor, nothing } from '../src/index.ts';

const billed = (over: Partial<CoreBilled> = {}): CoreBilled =>
  Object.freeze({
    ...{ charge: minor(25_000n), billed: '3', billedNet: minor(75_000n) },
    ...{ owed: '3', credited: '0', creditedNet: nothing },
    ...over,
  });

// Core charges are common practice, no source: these are identities of the definition.
test('what came back is given back at its charge, once', () => {
  expect(coreCredit(billed())).toEqual({ quantity: '0', amount: 0n });
  expect(coreCredit(billed({ owed: '1' }))).toEqual({ quantity: '2', amount: 50_000n });
  expect(coreCredit(billed({ owed: '0', credited: '2', creditedNet: minor(50_000n) }))).toEqual({
    quantity: '1',
    amount: 25_000n,
  });
  expect(coreCredit(billed({ owed: '1', credited: '2', creditedNet: minor(50_000n) }))).toEqual({
    quantity: '0',
    amount: 0n,
  });
});

test('what was held back was never asked for, and is not given back', () => {
  // Of 750.00 only 600.00 were billed: with one core still owed 250.00 stay, and 350.00 go back.
  const held = { billedNet: minor(60_000n) };
  expect(coreCredit(billed({ ...held, owed: '1' })).amount).toBe(35_000n);
  expect(coreCredit(billed({ ...held, owed: '0' })).amount).toBe(60_000n);
  expect(coreCredit(billed({ billedNet: nothing, owed: '0' })).amount).toBe(0n);
});

test('one by one or all at once, what goes back is what was billed less what stands for those still owed', () => {
  const units = fc.integer({ min: 0, max: 40 });
  fc.assert(
    fc.property(
      units,
      units,
      units,
      fc.bigInt(0n, 10n ** 9n),
      fc.bigInt(0n, 10n ** 9n),
      (all, one, other, charge, off) => {
        const first = Math.max(0, all - one);
        const then = Math.max(0, first - other);
        const full = charge * BigInt(all);
        const net = minor(off < full ? full - off : 0n);
        const core = { charge: minor(charge), billed: `${all}`, billedNet: net };
        const none = { credited: '0', creditedNet: nothing };
        const earlier = coreCredit({ ...core, ...none, owed: `${first}` });
        const later = coreCredit({
          ...core,
          ...{ owed: `${then}`, credited: earlier.quantity, creditedNet: earlier.amount },
        });
        const whole = coreCredit({ ...core, ...none, owed: `${then}` });
        expect(earlier.amount + later.amount).toBe(whole.amount);
        const stands = charge * BigInt(then);
        if (then < all) expect(net - whole.amount).toBe(stands < net ? stands : net);
      },
    ),
    { numRuns: 1000 },
  );
});

test('what cannot be counted is refused', () => {
  expect(() => coreCredit(billed({ owed: '-1' }))).toThrow(/Cannot count -1 units/);
  expect(() => coreCredit(billed({ billed: 'three' }))).toThrow(RangeError);
  expect(() => coreCredit(billed({ charge: minor(-1n) }))).toThrow(/Cannot charge -1/);
});
