import type { Said } from './shops.ts';

export interface Bin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** What was said on average, and how often it was so. */
  readonly said: number;
  readonly was: number;
}

/** Said against was, in ten bins of probability. */
export function reliability(said: readonly Said[]): readonly Bin[] {
  return Array.from({ length: 10 }, (_, bin): Bin => {
    const [from, to] = [bin / 10, (bin + 1) / 10];
    const within = said.filter(([p]) => p >= from && (p < to || bin === 9));
    const count = within.length;
    return {
      from,
      to,
      count,
      said: within.reduce((sum, [p]) => sum + p, 0) / count,
      was: within.filter(([, was]) => was).length / count,
    };
  });
}

/** The widest gap between said and was, over bins of at least so many. */
export const widestGap = (bins: readonly Bin[], least: number): number =>
  Math.max(
    0,
    ...bins.filter(({ count }) => count >= least).map(({ said, was }) => Math.abs(said - was)),
  );
