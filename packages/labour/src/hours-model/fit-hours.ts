import { ACCESS_PRIORS, type AccessPriors } from '../access-priors.ts';
import { hours } from '../hours.ts';
import { Criterion, type Point } from '../mixed/criterion.ts';
import { addTimes, type Design } from '../mixed/design.ts';
import { minimise } from '../mixed/optimise.ts';
import type { EffectPrior, Problem, ProblemGroup } from '../mixed/problem.ts';
import { type CodingTables, codeItem, type DoneItem, FACTORS, type Factor } from './coding.ts';
import { HOURS_MODEL_VERSION, type HoursModel, type ModelRow } from './hours-model.ts';
import * as normal from './normal.ts';
import { HOURS_PRIORS, type HoursPriors } from './priors.ts';

/** Rounds of reweighting at most, and the largest change of a weight that ends them. */
const MOST_ROUNDS = 30;
const WEIGHT_SETTLED = 1e-3;
/** In all but the last round the standard deviations need not be exact. */
const ROUGHLY = 1e-3;
const EXACTLY = 1e-8;
/** An item that counts less than this is odd: a clock left running, a wrong task. */
export const ODD_BELOW = 0.5;

/** Names to numbers in order of appearance, with a count each. */
class Index {
  readonly names: string[] = [];
  readonly counts: number[] = [];
  readonly #of = new Map<string, number>();

  add(name: string, counted: boolean): number {
    let index = this.#of.get(name);
    if (index === undefined) {
      index = this.names.length;
      this.#of.set(name, index);
      this.names.push(name);
      this.counts.push(0);
    }
    if (counted) this.counts[index]! += 1;
    return index;
  }
}

type Coded = {
  readonly y: Float64Array;
  readonly censored: readonly boolean[];
  readonly columns: Index;
  readonly effects: readonly EffectPrior[];
  readonly levels: ReadonlyMap<Factor, Index>;
  readonly rows: readonly Pick<ModelRow, 'x' | 'z'>[];
  readonly factors: readonly Factor[];
};

/** Geometric middle of the finished items; undefined when there are none. */
function medianOf(items: readonly DoneItem[]): number | undefined {
  const finished = items
    .filter(({ censored }) => !censored)
    .map((item) => item.hours)
    .sort((a, b) => a - b);
  if (finished.length === 0) return undefined;
  const upper = finished[Math.floor(finished.length / 2)]!;
  const lower = finished[Math.ceil(finished.length / 2) - 1]!;
  return Math.sqrt(lower * upper);
}

function codeAll(items: readonly DoneItem[], tables: CodingTables): Coded {
  const columns = new Index();
  const effects: EffectPrior[] = [];
  const levels = new Map<Factor, Index>(FACTORS.map((factor) => [factor, new Index()]));
  const y = new Float64Array(items.length);
  const used = new Set<Factor>();
  const raw = items.map((item, row) => {
    const coded = codeItem(item, tables);
    y[row] = Math.log(hours(item.hours)) - coded.offset;
    const x: number[] = [];
    for (const { name, value, prior } of coded.fixed) {
      const index = columns.add(name, !item.censored);
      effects[index] ??= prior;
      x.push(index, value);
    }
    const z: [Factor, number, number][] = coded.levels.map(({ factor, level, share }) => {
      used.add(factor);
      return [factor, levels.get(factor)!.add(level, !item.censored), share];
    });
    return { x, z };
  });
  const factors = FACTORS.filter((factor) => used.has(factor));
  return {
    y,
    censored: items.map(({ censored }) => censored),
    columns,
    effects,
    levels,
    factors,
    rows: raw.map(({ x, z }) => ({
      x,
      z: z.flatMap(([factor, level, share]) => [factors.indexOf(factor), level, share]),
    })),
  };
}

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

/** Linear predictor of each row at a point. */
function centres({ x, design, y }: Problem, { beta, b }: Point): Float64Array {
  const centre = new Float64Array(y.length);
  for (const [j, column] of x.entries()) {
    for (let row = 0; row < centre.length; row += 1) centre[row]! += beta[j]! * column[row]!;
  }
  addTimes(design, b, 1, centre);
  return centre;
}

/**
 * How much each item counts, and the ln hours it stands for, about where the model has it now.
 *
 * A finished item: weight (ν + 1)/(ν + z²), the EM weight of a Student-t (Lange, Little & Taylor 1989, JASA 84). One
 * that is only a lower bound c: the normal row with the same slope and curvature as ln P(ln h > c), which is weight
 * λ(λ − z) at centre + σ/(λ − z), with z = (c − centre)/σ and λ = φ(z)/(1 − Φ(z)).
 */
function reweigh(
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
function together(
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
function stretchOf(
  coded: Coded,
  problem: Problem,
  criterion: Criterion,
  point: Point,
  df: number,
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
  const prior = normalStretch(df);
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

/** The standard time that each task was last given: it holds for its items that do not say one. */
function standardsOf(items: readonly DoneItem[]): Map<string, number> {
  const standards = new Map<string, number>();
  for (const { task, standardHours } of items) {
    if (standardHours !== undefined) standards.set(task, standardHours);
  }
  return standards;
}

export type FitHoursOptions = {
  readonly priors?: HoursPriors | undefined;
  readonly accessPriors?: AccessPriors | undefined;
  /** Called with the round and the step in it. */
  readonly progress?: ((round: number, step: number) => void) | undefined;
  /** A former model of the same shop: where to begin, so that a refit is short. */
  readonly former?: HoursModel | undefined;
};

/**
 * Fits the model of a shop's hours to what was done.
 *
 * Two layers. The Gaussian one is a linear mixed model of ln hours with normal priors on chapters and access increments
 * and log-normal ones on standard deviations. On top, rounds of reweighting: an odd time counts less (Student-t), a
 * lower bound pulls only upwards. Each round is an ordinary fit that begins where the last one ended.
 *
 * A history without rows is legal: the model then answers from its priors.
 *
 * @throws RangeError for hours that are not finite and above 0, or impossible access conditions
 */
export function fitHours(done: readonly DoneItem[], options: FitHoursOptions = {}): HoursModel {
  const standards = standardsOf(done);
  const items = done.map((item) => ({
    ...item,
    standardHours: item.standardHours ?? standards.get(item.task),
  }));
  const { priors = HOURS_PRIORS, accessPriors = ACCESS_PRIORS, progress, former } = options;
  const medianHours = medianOf(items);
  const coded = codeAll(items, {
    priors,
    accessPriors,
    medianHours: medianHours ?? priors.medianHours,
  });
  const factors = coded.factors.map((factor) => ({
    factor,
    levels: coded.levels.get(factor)!.names.length,
  }));
  const weights = new Float64Array(items.length).fill(1);
  const y = coded.y.slice();
  const relativeOf = (factor: Factor) =>
    former?.factors.find((one) => one.factor === factor)?.relative ??
    Math.exp(priors[factor].mean) / priors.residual.sd;
  let theta = Float64Array.from(factors, ({ factor }) => relativeOf(factor));
  let lnSigma = former?.lnSigma ?? Math.log(priors.residual.sd);
  let criterion: Criterion | undefined;
  let stretch = normalStretch(priors.robustDf);
  let round = 0;
  let settled = items.length === 0;
  let last = false;
  while (items.length > 0 && round < MOST_ROUNDS) {
    round += 1;
    const problem = problemOf(
      coded.rows,
      y,
      weights,
      coded.columns.names,
      coded.effects,
      factors,
      priors,
    );
    criterion = new Criterion(problem, criterion);
    const { point } = minimise(
      criterion,
      { theta, lnSigma },
      (step) => progress?.(round, step),
      last ? EXACTLY : ROUGHLY,
    );
    theta = point.theta.slice();
    lnSigma = Math.log(point.sigma2) / 2;
    if (last) {
      stretch = stretchOf(coded, problem, criterion, point, priors.robustDf);
      break;
    }
    const change = reweigh(
      coded,
      centres(problem, point),
      Math.sqrt(point.sigma2),
      priors.robustDf,
      weights,
      y,
    );
    settled = change < WEIGHT_SETTLED;
    last = settled || round === MOST_ROUNDS - 1;
  }
  return {
    version: HOURS_MODEL_VERSION,
    priors,
    accessPriors,
    columns: coded.columns.names.map((name, index) => ({
      name,
      ...coded.effects[index]!,
      items: coded.columns.counts[index]!,
    })),
    factors: coded.factors.map((factor, index) => ({
      factor,
      levels: coded.levels.get(factor)!.names,
      items: coded.levels.get(factor)!.counts,
      relative: theta[index]!,
    })),
    lnSigma,
    stretch,
    standards: Object.fromEntries(standards),
    rows: together(coded.rows, y, weights),
    summary: {
      items: items.length,
      censored: coded.censored.filter(Boolean).length,
      odd: weights.reduce(
        (sum, w, row) => sum + (w < ODD_BELOW && !coded.censored[row] ? 1 : 0),
        0,
      ),
      medianHours,
      rounds: round,
      settled,
    },
  };
}
