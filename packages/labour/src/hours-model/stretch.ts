import type { Criterion, Point } from '../mixed/criterion.ts';
import type { Problem } from '../mixed/problem.ts';
import type { Coded } from './coded-rows.ts';
import { centres } from './problem-of.ts';

/** Items left out in turn at most, and how many items the prior opinion counts for. */
const LEFT_OUT = 400;
const STRETCH_WEIGHT = 20;
/** An item that counts less than this (more than five scales away) is no measure of how jobs vary. */
const STRAY_BELOW = 0.2;

/**
 * Calibration: how far items fall from where the model puts them without them, in units of what it says.
 *
 * Leaving item r out, with weight w and residual e about a centre of variance v: e/(1 − h), h = w·v/σ², and the spread
 * √(σ²/(1 − h)); their ratio is e/(σ·√(1 − h)). The stretch is what brings the middle four fifths of those ratios to the
 * normal's ±1.2816, taken over an even sample of the finished items that are not strays, and drawn while few towards what
 * it is for normal errors: the Student-t's scale is smaller than their standard deviation.
 */
export function stretchOf(
  coded: Coded,
  problem: Problem,
  criterion: Criterion,
  point: Point,
  prior: number,
): number {
  const usable = [...coded.y.keys()].filter(
    (row) => !coded.censored[row] && problem.weights![row]! >= STRAY_BELOW,
  );
  const every = Math.max(1, Math.floor(usable.length / LEFT_OUT));
  const centre = centres(problem, point);
  const ratios: number[] = [];
  for (let k = 0; k < usable.length; k += every) {
    const row = usable[k]!;
    const x = Float64Array.from(problem.x, (column) => column[row]!);
    const z = new Float64Array(problem.design.nodes);
    const { rowStart, node, coefficients } = problem.design;
    for (let e = rowStart[row]!; e < rowStart[row + 1]!; e += 1) z[node[e]!]! += coefficients[e]!;
    const image = criterion.imageOf(point, x, z);
    const leverage = problem.weights![row]! * image.reduce((sum, value) => sum + value * value, 0);
    const spread = Math.sqrt(point.sigma2 * Math.max(1 - leverage, 1e-6));
    ratios.push(Math.abs(coded.y[row]! - centre[row]!) / spread);
  }
  if (ratios.length === 0) return prior;
  ratios.sort((a, b) => a - b);
  const reach = ratios[Math.min(ratios.length - 1, Math.floor(0.8 * (ratios.length + 1)))]!;
  return (
    (ratios.length * (reach / NORMAL_P90) + STRETCH_WEIGHT * prior) /
    (ratios.length + STRETCH_WEIGHT)
  );
}

/**
 * Standard deviation of normal errors over the scale that a Student-t with ν degrees of freedom finds in them: the s with
 * E[(ν + 1)·s²z²/(ν + s²z²)] = 1 for standard normal z, by bisection; the mean by the trapezoidal rule.
 *
 * @example normalStretch(Infinity) // 1
 */
export function normalStretch(df: number): number {
  if (df === Infinity) return 1;
  const excess = (s: number) => {
    let sum = 0;
    for (let z = -8; z <= 8; z += 1 / 64) {
      const square = (s * z) ** 2;
      sum += (((df + 1) * square) / (df + square)) * Math.exp(-(z * z) / 2);
    }
    return sum / 64 / Math.sqrt(2 * Math.PI) - 1;
  };
  let low = 0.5;
  let high = 4;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (excess(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The standard normal's P90. */
const NORMAL_P90 = 1.2815515655446004;
