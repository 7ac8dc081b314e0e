import { dot } from '../mixed/dot.ts';
import { type PackageEstimate, sumOfItems } from '../package.ts';
import type { PackageItem, SimulationOptions } from '../package-item.ts';
import type { HoursEstimate } from './predictor.ts';

/** Covariance between items that may go missing, as a share of the sum's variance: its P90 moves by less than 1 in 1000. */
const NEGLIGIBLE = 0.01;

/**
 * Items of one model as a package wants them: what they share as a few independent components.
 *
 * The covariance of the items' centres is known exactly. Given all that is shared, tasks are independent, so what is left
 * open of a task alone is taken from its diagonal (where the task comes once); the rest has low rank and is
 * factored by a pivoted Cholesky (Higham 1990), what weighs most in the sum first, until the covariance that is left between
 * items is under 1 % of the variance of the sum; each item keeps its variance to the last digit.
 */
export function packageItems(estimates: readonly HoursEstimate[]): PackageItem[] {
  const n = estimates.length;
  const times = new Map<string, number>();
  for (const { alone } of estimates) times.set(alone.task, (times.get(alone.task) ?? 0) + 1);
  const v = new Float64Array(n * n);
  for (const [i, one] of estimates.entries()) {
    for (let j = 0; j <= i; j += 1) v[i * n + j] = dot(one.image, estimates[j]!.image);
    if (times.get(one.alone.task) === 1) v[i * n + i]! -= one.alone.variance;
  }
  const left = Float64Array.from(estimates, (_, i) => Math.max(0, v[i * n + i]!));
  // To first order an item moves the sum by its mean.
  const weighs = Float64Array.from(estimates, ({ mean }) => mean);
  let between = 0;
  let whole = 0;
  for (let i = 0; i < n; i += 1) {
    whole += (weighs[i]! * estimates[i]!.predictive.scale) ** 2;
    for (let j = 0; j < i; j += 1) between += 2 * weighs[i]! * weighs[j]! * v[i * n + j]!;
  }
  whole += between;
  const loadings: Float64Array[] = [];
  for (let rank = 0; rank < n && Math.abs(between) > NEGLIGIBLE * whole; rank += 1) {
    let pivot = 0;
    for (let i = 0; i < n; i += 1) {
      if (weighs[i]! ** 2 * left[i]! > weighs[pivot]! ** 2 * left[pivot]!) pivot = i;
    }
    if (!(left[pivot]! > 0)) break;
    const root = Math.sqrt(left[pivot]!);
    const column = new Float64Array(n);
    for (let i = 0; i < n; i += 1) {
      let value = i >= pivot ? v[i * n + pivot]! : v[pivot * n + i]!;
      for (const earlier of loadings) value -= earlier[i]! * earlier[pivot]!;
      // Rounding must not give an item more than it has left.
      column[i] = Math.sign(value) * Math.min(Math.abs(value) / root, Math.sqrt(left[i]!));
    }
    let along = 0;
    for (let i = 0; i < n; i += 1) {
      along += weighs[i]! * column[i]!;
      between += (weighs[i]! * column[i]!) ** 2;
      left[i] = Math.max(0, left[i]! - column[i]! ** 2);
    }
    between -= along ** 2;
    left[pivot] = 0;
    loadings.push(column);
  }
  return estimates.map((one, i) => ({
    predictive: one.predictive,
    mean: one.mean,
    p80: one.p80,
    shared: [
      ...loadings.map((column, rank) => ({ component: `shared ${rank}`, loading: column[i]! })),
      ...one.unmet,
    ],
  }));
}

/** How long items of one model take together, by seeded simulation. */
export const packageOf = (
  estimates: readonly HoursEstimate[],
  options: SimulationOptions,
): PackageEstimate => sumOfItems(packageItems(estimates), options);
