import type { Hours } from './hours.ts';
import { drawItems, drawsOf } from './package-draws.ts';
import type { PackageItem, SimulationOptions } from './package-item.ts';
import { quantileOfSorted } from './sample-quantile.ts';

/** How long a package of items will take together. */
export type PackageEstimate = {
  readonly p10: Hours;
  readonly p50: Hours;
  /** The sum of the items' plug-in means: the predictive itself has no mean to average. */
  readonly mean: Hours;
  readonly p80: Hours;
  readonly p90: Hours;
  /** What adding up the items' P80s gives: for comparison, not a P80 of anything. */
  readonly sumOfP80: Hours;
};

/**
 * Simulated sums: draws of the hours of all items together, unsorted. See `drawItems`.
 *
 * @throws RangeError for an unusable item, seed or number of draws
 */
export function simulateSums(
  items: readonly PackageItem[],
  options: SimulationOptions,
): Float64Array {
  const sums = new Float64Array(drawsOf(options));
  drawItems(items, options, (_, drawn, from) => {
    for (let i = 0; i < drawn.length; i += 1) sums[from + i]! += drawn[i]!;
  });
  return sums;
}

/**
 * Sum of items: how long a package takes, by seeded simulation, with what is shared kept shared.
 *
 * The sum of the items' P80s is not the P80 of the sum, so both are given. See `drawItems` for
 * what items share. An empty package takes no time: every figure is 0.
 *
 * @throws RangeError for an unusable item, seed or number of draws
 * @example
 * const certain = { predictive: { location: 0, scale: 0, df: Infinity }, mean: 1, p80: 1 };
 * sumOfItems([certain, certain], { seed: 1 }).p90 // 2
 */
export function sumOfItems(
  items: readonly PackageItem[],
  options: SimulationOptions,
): PackageEstimate {
  const sorted = simulateSums(items, options).sort();
  const quantile = (p: number) => quantileOfSorted(sorted, p) as Hours;
  return {
    p10: quantile(0.1),
    p50: quantile(0.5),
    mean: items.reduce(
      (sum, { mean, event }) => sum + mean * (event?.probability ?? 1),
      0,
    ) as Hours,
    p80: quantile(0.8),
    p90: quantile(0.9),
    sumOfP80: items.reduce((sum, { p80 }) => sum + p80, 0) as Hours,
  };
}
