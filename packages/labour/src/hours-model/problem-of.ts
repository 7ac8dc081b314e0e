import type { Point } from '../mixed/criterion.ts';
import { addTimes, type Design } from '../mixed/design.ts';
import type { EffectPrior, Problem, ProblemGroup } from '../mixed/problem.ts';
import type { Factor } from './coding.ts';
import type { ModelRow } from './hours-model.ts';
import type { HoursPriors } from './priors.ts';

/**
 * Rows in the model's terms as a problem for the Gaussian layer. Behind them the jobs that the prior of the residual stands
 * for: rows without a column or a level, which tell of nothing but the residual.
 */
export function problemOf(
  rows: readonly Pick<ModelRow, 'x' | 'z'>[],
  y: Float64Array,
  weights: Float64Array,
  names: readonly string[],
  effects: readonly EffectPrior[],
  factors: readonly { readonly factor: Factor; readonly levels: number }[],
  priors: HoursPriors,
): Problem {
  const groups: ProblemGroup[] = [];
  let nodes = 0;
  for (const { factor, levels } of factors) {
    groups.push({ firstNode: nodes, levels, terms: 1, correlated: true, spread: priors[factor] });
    nodes += levels;
  }
  const node: number[] = [];
  const coefficients: number[] = [];
  const { sd, jobs } = priors.residual;
  const all = rows.length + jobs;
  const rowStart = new Int32Array(all + 1);
  const x = names.map(() => new Float64Array(all));
  for (let row = 0; row < all; row += 1) {
    const { x: fixed, z } = rows[row] ?? { x: [], z: [] };
    for (let k = 0; k < fixed.length; k += 2) x[fixed[k]!]![row]! += fixed[k + 1]!;
    for (let k = 0; k < z.length; k += 3) {
      node.push(groups[z[k]!]!.firstNode + z[k + 1]!);
      coefficients.push(z[k + 2]!);
    }
    rowStart[row + 1] = node.length;
  }
  const extended = (values: Float64Array, value: number) => {
    const longer = new Float64Array(all).fill(value);
    longer.set(values);
    return longer;
  };
  const design: Design = {
    rows: all,
    nodes,
    widths: new Int32Array(nodes).fill(1),
    scalarOf: Int32Array.from({ length: nodes + 1 }, (_, k) => k),
    rowStart,
    node: Int32Array.from(node),
    coefficientOf: Int32Array.from({ length: node.length }, (_, k) => k),
    coefficients: Float64Array.from(coefficients),
  };
  return {
    y: extended(y, sd),
    x,
    names,
    weights: extended(weights, 1),
    design,
    groups,
    method: 'reml',
    effects,
  };
}

/** The same problem for other ln hours and weights. */
export function reweighed(problem: Problem, y: Float64Array, weights: Float64Array): Problem {
  const replaced = (old: Float64Array, values: Float64Array) => {
    const all = old.slice();
    all.set(values);
    return all;
  };
  return { ...problem, y: replaced(problem.y, y), weights: replaced(problem.weights!, weights) };
}

/** Linear predictor of each row at a point. */
export function centres({ x, design, y }: Problem, { beta, b }: Point): Float64Array {
  const centre = new Float64Array(y.length);
  for (const [j, column] of x.entries()) {
    for (let row = 0; row < centre.length; row += 1) centre[row]! += beta[j]! * column[row]!;
  }
  addTimes(design, b, 1, centre);
  return centre;
}
