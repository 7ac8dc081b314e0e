import { expect, test } from 'vitest';
import { chanceRange } from '../features/hours/chance.ts';
import { logPercent, logScale, rulings } from '../features/hours/log-scale.ts';

test('what chance does to eight in ten: central 95 % of the binomial distribution', () => {
  // n = 2 by hand: P(0) = 0.04, P(≤1) = 0.36. n = 1: P(0) = 0.2.
  expect(chanceRange(2, 0.8)).toEqual({ low: 0, high: 2 });
  expect(chanceRange(1, 0.8)).toEqual({ low: 0, high: 1 });
  // n = 10 by hand, P(K ≤ 4) = 0.0064, P(K ≤ 5) = 0.0328, P(K ≤ 9) = 1 − 0.8¹⁰ = 0.8926.
  expect(chanceRange(10, 0.8)).toEqual({ low: 5, high: 10 });
  // A fair coin thrown 100 times: 40 to 60, as tables of the sign test have it.
  expect(chanceRange(100, 0.5)).toEqual({ low: 40, high: 60 });
  // As the normal distribution has it for large n: 800 ± 1.96 × √160 = 775.2 to 824.8.
  expect(chanceRange(1000, 0.8)).toEqual({ low: 775, high: 824 });
  expect(() => chanceRange(0, 0.8)).toThrow('got 0'.replace('got ', ''));
  expect(() => chanceRange(10, 1)).toThrow(RangeError);
});

test('log paper holds every value in whole decades', () => {
  expect(logScale([0.4, 12])).toEqual({ from: -1, to: 2 });
  expect(logScale([1])).toEqual({ from: 0, to: 1 });
  expect(logScale([])).toEqual({ from: 0, to: 1 });
  expect(() => logScale([0])).toThrow('Cannot place 0');
  expect(logPercent(1, { from: -1, to: 1 })).toBe(50);
  const lines = rulings({ from: -1, to: 1 });
  expect(lines).toHaveLength(19);
  expect(lines.filter(({ strong }) => strong).map(({ value }) => value)).toEqual([0.1, 1, 10]);
  expect(lines.map(({ value }) => value)).toEqual(
    [...lines.map(({ value }) => value)].sort((a, b) => a - b),
  );
});
