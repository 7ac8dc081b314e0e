import type { Coded } from './coded-rows.ts';
import type { ModelRow } from './hours-model.ts';
import * as normal from './normal.ts';

/**
 * How much each item counts, and the ln hours it stands for, about where the model has it now.
 *
 * A finished item: weight (ν + 1)/(ν + z²), the EM weight of a Student-t (Lange, Little & Taylor 1989, JASA 84). One
 * that is only a lower bound c: the normal row with the same slope and curvature as ln P(ln h > c), which is weight
 * λ(λ − z) at centre + σ/(λ − z), with z = (c − centre)/σ and λ = φ(z)/(1 − Φ(z)).
 */
export function reweigh(
  coded: Coded,
  centre: Float64Array,
  sigma: number,
  df: number,
  weights: Float64Array,
  y: Float64Array,
): number {
  let change = 0;
  for (let row = 0; row < y.length; row += 1) {
    const z = (coded.y[row]! - centre[row]!) / sigma;
    let weight = (df + 1) / (df + z * z);
    if (coded.censored[row]) {
      const hazard = normal.hazard(z);
      weight = Math.max(hazard * (hazard - z), 1e-6);
      y[row] = centre[row]! + sigma / (hazard - z);
    }
    change = Math.max(change, Math.abs(weight - weights[row]!));
    weights[row] = weight;
  }
  return change;
}

/** Puts rows together that the model cannot tell apart: the normal equations stay the same. */
export function together(
  rows: readonly Pick<ModelRow, 'x' | 'z'>[],
  y: Float64Array,
  weights: Float64Array,
): ModelRow[] {
  const found = new Map<
    string,
    { weight: number; sum: number; x: readonly number[]; z: readonly number[] }
  >();
  for (const [row, { x, z }] of rows.entries()) {
    const key = `${x.join()};${z.join()}`;
    const one = found.get(key) ?? { weight: 0, sum: 0, x, z };
    one.weight += weights[row]!;
    one.sum += weights[row]! * y[row]!;
    found.set(key, one);
  }
  return [...found.values()].map(({ weight, sum, x, z }) => ({ weight, y: sum / weight, x, z }));
}
