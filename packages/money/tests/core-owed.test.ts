import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CoreFacts, coreOwed, minor } from '../src/index.ts';

const facts = (over: Partial<CoreFacts> = {}): CoreFacts =>
  Object.freeze({ charge: minor(25_000n), taken: '4', returned: '0', handedOver: '0', ...over });

// Exchange parts and their charges are common practice, no source: these are identities of the definition.
test('one core is owed a unit taken; none for what came back unused or was handed over', () => {
  expect(coreOwed(facts())).toEqual({ quantity: '4', amount: 100_000n });
  expect(coreOwed(facts({ returned: '1', handedOver: '2' }))).toEqual({
    quantity: '1',
    amount: 25_000n,
  });
  expect(coreOwed(facts({ returned: '2', handedOver: '3' }))).toEqual({
    quantity: '0',
    amount: 0n,
  });
  expect(coreOwed(facts({ charge: minor(0n) }))).toEqual({ quantity: '4', amount: 0n });
});

test('parts of a unit are charged exactly, rounded half away from zero once', () => {
  expect(coreOwed(facts({ charge: minor(1n), taken: '0.5' })).amount).toBe(1n);
  expect(coreOwed(facts({ charge: minor(1n), taken: '0.499' })).amount).toBe(0n);
  expect(coreOwed(facts({ charge: minor(33_333n), taken: '0.333' })).amount).toBe(11_100n);
});

test('what is owed plus what was handed over is what was taken, for any figures', () => {
  const thousandths = fc.integer({ min: 0, max: 5_000_000 });
  fc.assert(
    fc.property(thousandths, thousandths, fc.bigInt(0n, 10n ** 10n), (taken, handed, charge) => {
      const text = (value: number) =>
        `${Math.floor(value / 1000)}.${String(value % 1000).padStart(3, '0')}`;
      const owed = coreOwed({
        charge: minor(charge),
        taken: text(taken),
        returned: '0',
        handedOver: text(Math.min(handed, taken)),
      });
      const left = BigInt(taken - Math.min(handed, taken));
      expect(Math.round(Number(owed.quantity) * 1000)).toBe(Number(left));
      expect(owed.amount).toBe((charge * left + 500n) / 1000n);
    }),
  );
});

test('what cannot be counted is refused', () => {
  expect(() => coreOwed(facts({ taken: '-1' }))).toThrow(/Cannot count -1 units/);
  expect(() => coreOwed(facts({ taken: 'two' }))).toThrow(RangeError);
  expect(() => coreOwed(facts({ charge: minor(-1n) }))).toThrow(/Cannot charge -1 minor units/);
});
