/** A logarithmic axis over whole decades, as printed on log paper. */
export interface LogScale {
  /** Powers of ten at its ends. */
  from: number;
  to: number;
}

/**
 * The decades that hold all values, at least one.
 *
 * @param values above zero; others throw RangeError
 * @example logScale([0.4, 12]) // → { from: -1, to: 2 }
 */
export function logScale(values: readonly number[]): LogScale {
  const bad = values.find((value) => !(value > 0 && Number.isFinite(value)));
  if (bad !== undefined) {
    throw new RangeError(`Cannot place ${bad} on log paper: need a number above 0`);
  }
  if (values.length === 0) return { from: 0, to: 1 };
  const from = Math.floor(Math.log10(Math.min(...values)));
  const to = Math.ceil(Math.log10(Math.max(...values)));
  return { from, to: to > from ? to : from + 1 };
}

/**
 * Where a value lies on the axis, in per cent of its length.
 *
 * @example logPercent(1, { from: -1, to: 1 }) // → 50
 */
export function logPercent(value: number, { from, to }: LogScale): number {
  return ((Math.log10(value) - from) / (to - from)) * 100;
}

/**
 * The lines of log paper: 1 to 9 in each decade and the end of the last. Decades are `strong`.
 *
 * @example rulings({ from: 0, to: 1 }).length // → 10
 */
export function rulings({ from, to }: LogScale): { value: number; strong: boolean }[] {
  const lines: { value: number; strong: boolean }[] = [];
  for (let decade = from; decade < to; decade += 1) {
    for (let digit = 1; digit <= 9; digit += 1) {
      lines.push({ value: Number((digit * 10 ** decade).toPrecision(1)), strong: digit === 1 });
    }
  }
  return [...lines, { value: 10 ** to, strong: true }];
}
