import { expect, it } from 'vitest';
import { storageFor } from '../src/index.ts';

const of = (toldOn: string, lastOn: string, freeDays: number, dayPrice = '25.50') =>
  storageFor({ toldOn, lastOn, rule: { freeDays, dayPrice } }, 'USD');

it('counts civil days after the free ones, over months, leap days and a clock put forward', () => {
  expect(of('2026-03-02', '2026-03-02', 0)).toEqual({ days: 0, amount: 0n });
  expect(of('2026-03-02', '2026-03-03', 0)).toEqual({ days: 1, amount: 2550n });
  expect(of('2026-03-02', '2026-03-05', 3)).toEqual({ days: 0, amount: 0n });
  expect(of('2026-03-02', '2026-03-06', 3)).toEqual({ days: 1, amount: 2550n });
  // 28 February 2028 to 1 March: a leap year, two days. 28 to 30 March 2026 with summer time between: two.
  expect(of('2028-02-28', '2028-03-01', 0).days).toBe(2);
  expect(of('2026-03-28', '2026-03-30', 0).days).toBe(2);
  expect(of('2026-12-30', '2027-01-02', 1).days).toBe(2);
});

it('is nothing where it left before it was told ready', () => {
  expect(of('2026-03-10', '2026-03-02', 0)).toEqual({ days: 0, amount: 0n });
});

it.each([
  [() => of('2026-02-30', '2026-03-02', 0), 'Cannot count from "2026-02-30"'],
  [() => of('2026-03-02', 'soon', 0), 'Cannot count from "soon"'],
  [() => of('2026-03-02', '2026-03-03', -1), 'Cannot give -1 free days'],
  [() => of('2026-03-02', '2026-03-03', 1.5), 'Cannot give 1.5 free days'],
])('%s is refused', (work, words) => {
  expect(work).toThrow(words);
});
