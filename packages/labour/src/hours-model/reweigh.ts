import type { Coded } from './coded-rows.ts';
import type { ModelRow } from './hours-model.ts';
import * as normal from './normal.ts';
import { normalStretch } from './stretch.ts';

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

/** Items that the opinion about normal errors counts for. */
const NORMAL_ITEMS = 20;

/**
 * How much wider the errors of levels are than weighted least squares says: the weights come from the residuals, so they are
 * no plain precisions. For ψ(z) = w·z the variance of such an estimate is σ²·E ψ²/(E ψ′)², where the fit says σ²/E w
 * (Huber 1981, Robust Statistics, section 7.6); here the square root of their ratio over the finished items, drawn while
 * they are few towards what it is for normal errors.
 */
export function lostByWeights(
  coded: Coded,
  centre: Float64Array,
  sigma: number,
  df: number,
): number {
  let [items, weight, ofPsi, slope, explained] = [0, 0, 0, 0, 0];
  for (let row = 0; row < coded.y.length; row += 1) {
    if (coded.censored[row]) continue;
    const square = ((coded.y[row]! - centre[row]!) / sigma) ** 2;
    const w = (df + 1) / (df + square);
    items += 1;
    weight += w;
    ofPsi += w * w * square;
    slope += (w * (df - square)) / (df + square);
    explained += w * square;
  }
  const ofNormal = normalStretch(df);
  // Residuals are smaller than errors, all alike: what w·z² makes on average is 1 for errors.
  const ratio =
    explained > 0 && slope > 0 ? Math.sqrt((ofPsi / explained) * items * weight) / slope : ofNormal;
  return (items * ratio + NORMAL_ITEMS * ofNormal) / (items + NORMAL_ITEMS);
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
