/** A logarithmic axis of factors. */
export interface FactorScale {
  from: number;
  to: number;
}

const marks = [0.1, 0.2, 0.33, 0.5, 0.75, 1, 1.25, 1.5, 2, 3, 4, 5, 7, 10, 20, 50, 100];
const named = new Set([0.1, 0.2, 0.5, 1, 1.5, 2, 3, 5, 10, 20, 50, 100]);

/**
 * The axis that holds all factors and ×1, with a little room at its ends.
 *
 * @example factorScale([1.26, 2]).from < 1 // → true
 */
export function factorScale(factors: readonly number[]): FactorScale {
  const known = factors.filter((factor) => factor > 0 && Number.isFinite(factor));
  return { from: Math.min(0.9, ...known) / 1.04, to: Math.max(1.5, ...known) * 1.04 };
}

/**
 * Where a factor lies on the axis, in per cent of its length.
 *
 * @example factorPercent(1, { from: 0.5, to: 2 }) // → 50
 */
export const factorPercent = (factor: number, { from, to }: FactorScale): number =>
  (Math.log(factor / from) / Math.log(to / from)) * 100;

/** Lines of the axis; some bear their figure. */
export const factorLines = ({ from, to }: FactorScale): { value: number; named: boolean }[] =>
  marks
    .filter((value) => value >= from && value <= to)
    .map((value) => ({ value, named: named.has(value) }));
