import {
  type PackageEstimate,
  type PackageItem,
  type SimulationOptions,
  sumOfItems,
} from '../package.ts';
import type { HoursEstimate } from './predictor.ts';

/** What is left of a shared variance, as a share of an item's whole, that may be taken for the item's own. */
const NEGLIGIBLE = 1e-4;

/** Products of the shared coordinates of two items. */
function sharedOf(one: HoursEstimate, other: HoursEstimate): number {
  let sum = 0;
  for (let k = 0; k < one.image.length; k += 1) sum += one.image[k]! * other.image[k]!;
  return sum;
}

/**
 * Items of one model as a package wants them: what they share as a few independent components.
 *
 * The covariance of the items' centres is known exactly. Given all that is shared, tasks are independent, so what is left
 * open of a task alone is taken from its diagonal (where the task comes once); the rest has low rank and is
 * factored by a pivoted Cholesky (Higham 1990), until less than 1e-4 of an item's variance is left.
 */
export function packageItems(estimates: readonly HoursEstimate[]): PackageItem[] {
  const n = estimates.length;
  const times = new Map<string, number>();
  for (const { alone } of estimates) times.set(alone.task, (times.get(alone.task) ?? 0) + 1);
  const v = new Float64Array(n * n);
  for (const [i, one] of estimates.entries()) {
    for (let j = 0; j <= i; j += 1) v[i * n + j] = sharedOf(one, estimates[j]!);
    if (times.get(one.alone.task) === 1) v[i * n + i]! -= one.alone.variance;
  }
  const left = Float64Array.from(estimates, (_, i) => Math.max(0, v[i * n + i]!));
  const loadings: Float64Array[] = [];
  for (let rank = 0; rank < n; rank += 1) {
    let pivot = -1;
    let most = NEGLIGIBLE;
    for (const [i, { predictive }] of estimates.entries()) {
      const share = left[i]! / predictive.scale ** 2;
      if (share > most) {
        most = share;
        pivot = i;
      }
    }
    if (pivot < 0) break;
    const root = Math.sqrt(left[pivot]!);
    const column = new Float64Array(n);
    for (let i = 0; i < n; i += 1) {
      let value = i >= pivot ? v[i * n + pivot]! : v[pivot * n + i]!;
      for (const earlier of loadings) value -= earlier[i]! * earlier[pivot]!;
      // Rounding must not give an item more than it has left.
      column[i] = Math.sign(value) * Math.min(Math.abs(value) / root, Math.sqrt(left[i]!));
    }
    for (let i = 0; i < n; i += 1) left[i] = Math.max(0, left[i]! - column[i]! ** 2);
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
