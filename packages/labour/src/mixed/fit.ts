import { Criterion } from './criterion.ts';
import type { Design } from './design.ts';
import { minimise } from './optimise.ts';
import type { EffectPrior, Problem, ProblemGroup, SpreadPrior } from './problem.ts';
import { smallInverse } from './small-cholesky.ts';

/** A column of numbers with its name, a value each row. */
export type Column = { readonly name: string; readonly values: Float64Array };

/** The members of a group that share a row, where it is not just one: entries of row r from start[r] up to start[r + 1]. */
export type Membership = {
  readonly start: Int32Array;
  readonly level: Int32Array;
  /** Share of each; usually they add up to 1. */
  readonly share: Float64Array;
};

/** A grouping factor: levels whose effects are drawn from one normal distribution. */
export type Grouping = {
  readonly name: string;
  readonly levels: readonly string[];
  /** Level of each row, or who shares it. */
  readonly of: Int32Array | Membership;
  /** Covariates with a random slope for each level. */
  readonly slopes?: readonly Column[] | undefined;
  /** Whether each level has a random intercept: true unless said. */
  readonly intercept?: boolean | undefined;
  /** Whether intercept and slopes are correlated: true unless said. */
  readonly correlated?: boolean | undefined;
  readonly spread?: SpreadPrior | undefined;
};

/** What to fit: y = Xβ + Zb + ε. */
export type MixedModel = {
  readonly y: Float64Array;
  /** Columns of X besides the intercept. */
  readonly fixed: readonly Column[];
  /** Whether X has a column of ones: true unless said. */
  readonly intercept?: boolean | undefined;
  readonly groups: readonly Grouping[];
  readonly method: 'reml' | 'ml';
  /** Weight of each row: its variance is σ²/weight. */
  readonly weights?: Float64Array | undefined;
  /** Normal priors by the name of the fixed effect; those not named are flat. */
  readonly priors?: Readonly<Record<string, EffectPrior>> | undefined;
  readonly residualSpread?: SpreadPrior | undefined;
  /** Relative standard deviations to begin at, by group: a former fit's, so that a refit is short. */
  readonly startAt?: readonly number[] | undefined;
};

/** One grouping factor as fitted. */
export type FittedGroup = {
  readonly name: string;
  readonly terms: readonly string[];
  readonly levels: readonly string[];
  /** Covariance of a level's terms, row-major. */
  readonly covariance: Float64Array;
  /** Conditional means of the effects: term t of level l is effects[l · terms + t]. */
  readonly effects: Float64Array;
};

export type MixedFit = {
  readonly rows: number;
  readonly fixed: readonly {
    readonly name: string;
    readonly estimate: number;
    readonly se: number;
  }[];
  /** Covariance of the fixed effects, row-major, in the order of `fixed`. */
  readonly fixedCovariance: Float64Array;
  readonly groups: readonly FittedGroup[];
  /** Residual variance σ². */
  readonly residual: number;
  /** −2 × the log (restricted) likelihood with all its constants. */
  readonly criterion: number;
  readonly iterations: number;
  readonly evaluations: number;
  /** Relative standard deviations of each group's first term. */
  readonly relative: readonly number[];
};

export const INTERCEPT = '(Intercept)';

/** A value of the column itself near its middle, so that taking it away is exact where the digits agree. */
function middleOf(values: Float64Array): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  let best = values[0]!;
  for (const value of values) if (Math.abs(value - mean) < Math.abs(best - mean)) best = value;
  return best;
}

/** A power of two near the column's spread, so that dividing by it is exact. */
function scaleOf(values: Float64Array): number {
  const square = values.reduce((sum, value) => sum + value * value, 0) / values.length;
  return square > 0 ? 2 ** Math.round(Math.log2(square) / 2) : 1;
}

function mustBeFinite(name: string, values: Float64Array, rows: number): void {
  if (values.length !== rows) {
    throw new RangeError(`Column ${name} has ${values.length} values; the response has ${rows}.`);
  }
  const bad = values.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0) {
    throw new RangeError(
      `Column ${name}, row ${bad + 1}: a finite number is needed; got ${values[bad]}.`,
    );
  }
}

function checked(model: MixedModel): void {
  const { y, fixed, groups, weights } = model;
  const rows = y.length;
  mustBeFinite('of the response', y, rows);
  for (const { name, values } of fixed) mustBeFinite(name, values, rows);
  for (const { slopes = [] } of groups)
    for (const { name, values } of slopes) mustBeFinite(name, values, rows);
  if (weights !== undefined) {
    mustBeFinite('of the weights', weights, rows);
    const bad = weights.findIndex((weight) => !(weight > 0));
    if (bad >= 0)
      throw new RangeError(`Row ${bad + 1}: a weight must be above 0; got ${weights[bad]}.`);
  }
  const names = new Set<string>();
  for (const { name } of groups) {
    if (names.has(name)) throw new RangeError(`Two groups are called ${name}; names must differ.`);
    names.add(name);
  }
  const effects = fixed.length + (model.intercept === false ? 0 : 1);
  if (rows <= effects) {
    throw new RangeError(
      `${rows} rows cannot tell ${effects} fixed effects and a residual apart; at least ${effects + 1} are needed.`,
    );
  }
  if (y.every((value) => value === y[0]) && model.residualSpread === undefined) {
    throw new RangeError(
      `All ${rows} values of the response are ${y[0]}: nothing varies, so no variance can be estimated.`,
    );
  }
}

/** Without two rows in some level a group's variance is one with the residual's. */
function mustRepeat(model: MixedModel): void {
  for (const { name, levels, of, spread, intercept, slopes = [] } of model.groups) {
    if (
      spread !== undefined ||
      intercept === false ||
      slopes.length > 0 ||
      !(of instanceof Int32Array)
    )
      continue;
    if (levels.length < of.length || model.weights !== undefined) continue;
    throw new RangeError(
      `Group ${name} has as many levels as there are rows (${of.length}): its variance cannot be told from the residual's. Some level must come twice.`,
    );
  }
}

function designOf(model: MixedModel): { design: Design; groups: ProblemGroup[] } {
  const rows = model.y.length;
  const groups: ProblemGroup[] = [];
  let nodes = 0;
  for (const { levels, slopes = [], intercept = true, correlated = true, spread } of model.groups) {
    const terms = (intercept ? 1 : 0) + slopes.length;
    groups.push({ firstNode: nodes, levels: levels.length, terms, correlated, spread });
    nodes += levels.length;
  }
  const widths = new Int32Array(nodes);
  for (const { firstNode, levels, terms } of groups)
    widths.fill(terms, firstNode, firstNode + levels);
  const scalarOf = new Int32Array(nodes + 1);
  for (let node = 0; node < nodes; node += 1) scalarOf[node + 1] = scalarOf[node]! + widths[node]!;
  const rowStart = new Int32Array(rows + 1);
  const node: number[] = [];
  const coefficientOf: number[] = [];
  const coefficients: number[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (const [index, { of, intercept = true, slopes = [] }] of model.groups.entries()) {
      const { firstNode } = groups[index]!;
      const add = (level: number, share: number) => {
        node.push(firstNode + level);
        coefficientOf.push(coefficients.length);
        if (intercept) coefficients.push(share);
        for (const { values } of slopes) coefficients.push(share * values[row]!);
      };
      if (of instanceof Int32Array) add(of[row]!, 1);
      else
        for (let k = of.start[row]!; k < of.start[row + 1]!; k += 1)
          add(of.level[k]!, of.share[k]!);
    }
    rowStart[row + 1] = node.length;
  }
  return {
    groups,
    design: {
      rows,
      nodes,
      widths,
      scalarOf,
      rowStart,
      node: Int32Array.from(node),
      coefficientOf: Int32Array.from(coefficientOf),
      coefficients: Float64Array.from(coefficients),
    },
  };
}

/** The model in well-scaled numbers, and the way back. */
type Scaled = {
  readonly problem: Problem;
  /** Taken from y, and from each column; what each column was then divided by. */
  readonly shift: number;
  readonly middles: readonly number[];
  readonly scales: readonly number[];
  readonly hasIntercept: boolean;
};

function scaled(model: MixedModel): Scaled {
  const hasIntercept = model.intercept !== false;
  const { design, groups } = designOf(model);
  const mayShift = hasIntercept && model.priors?.[INTERCEPT] === undefined;
  const shift = mayShift ? middleOf(model.y) : 0;
  const middles = model.fixed.map(({ values }) => (mayShift ? middleOf(values) : 0));
  const moved = model.fixed.map(({ values }, j) => values.map((value) => value - middles[j]!));
  const scales = moved.map(scaleOf);
  const ones = new Float64Array(model.y.length).fill(1);
  const names = [...(hasIntercept ? [INTERCEPT] : []), ...model.fixed.map(({ name }) => name)];
  const all = [...(hasIntercept ? [1] : []), ...scales];
  const effects = names.map((name, j): EffectPrior => {
    const prior = model.priors?.[name];
    return prior === undefined
      ? { mean: 0, sd: Infinity }
      : { mean: prior.mean * all[j]!, sd: prior.sd * all[j]! };
  });
  return {
    shift,
    middles,
    scales,
    hasIntercept,
    problem: {
      y: model.y.map((value) => value - shift),
      x: [
        ...(hasIntercept ? [ones] : []),
        ...moved.map((values, j) => values.map((value) => value / scales[j]!)),
      ],
      names,
      weights: model.weights,
      design,
      groups,
      method: model.method,
      effects: model.priors === undefined ? undefined : effects,
      residual: model.residualSpread,
    },
  };
}

/** The matrix that takes fixed effects from the scaled problem to the model's own units. */
function wayBack({ problem, scales, middles, hasIntercept }: Scaled): Float64Array {
  const p = problem.x.length;
  const first = hasIntercept ? 1 : 0;
  const back = new Float64Array(p * p);
  if (hasIntercept) back[0] = 1;
  for (const [j, scale] of scales.entries()) {
    back[(first + j) * p + first + j] = 1 / scale;
    if (hasIntercept) back[first + j] = -middles[j]! / scale;
  }
  return back;
}

/** Where to begin: each term's standard deviation as large as the residual's, in the scale of its covariate. */
function startOf(criterion: Criterion, startAt: readonly number[] | undefined): Float64Array {
  const { design, groups } = criterion.problem;
  return Float64Array.from(criterion.parameters, ({ group, row, column }) => {
    if (row !== column) return 0;
    const { firstNode, levels, terms } = groups[group]!;
    if (terms === 1 && startAt?.[group] !== undefined) return startAt[group];
    let square = 0;
    let entries = 0;
    for (let e = 0; e < design.node.length; e += 1) {
      const node = design.node[e]!;
      if (node < firstNode || node >= firstNode + levels) continue;
      square += design.coefficients[design.coefficientOf[e]! + row]! ** 2;
      entries += 1;
    }
    return square > 0 ? 1 / Math.sqrt(square / entries) : 1;
  });
}

/**
 * Fits a linear mixed model by REML or ML.
 *
 *     y = Xβ + Zb + ε,  b of each level ~ N(0, σ²ΛΛᵀ),  ε of row r ~ N(0, σ²/w_r)
 *
 * Any number of crossed or nested groups; random intercepts, correlated or independent slopes; rows shared by several
 * members of a group. Fixed effects may have normal priors, standard deviations log-normal ones; with none the fit is
 * the ordinary one of Bates, Mächler, Bolker & Walker (2015, J. Stat. Softw. 67(1)) and agrees with it. The response
 * and covariates are first moved and scaled without rounding where their digits allow, so that leading digits which
 * all values share cost no accuracy.
 *
 * @throws RangeError for numbers that are not finite, fewer rows than effects, a response that does not vary, a group
 *   without a repeated level, and (CollinearError) fixed effects that cannot be told apart
 */
export function fitMixed(model: MixedModel, progress?: (iteration: number) => void): MixedFit {
  checked(model);
  mustRepeat(model);
  const made = scaled(model);
  const criterion = new Criterion(made.problem);
  const theta = startOf(criterion, model.startAt);
  const { y } = made.problem;
  const lnSigma = Math.log(Math.sqrt(y.reduce((sum, v) => sum + v * v, 0) / y.length) || 1) - 0.5;
  const { point, iterations, evaluations } = minimise(criterion, { theta, lnSigma }, progress);

  const p = made.problem.x.length;
  const back = wayBack(made);
  const inverse = smallInverse(point.sx);
  const fixedCovariance = new Float64Array(p * p);
  const estimates = new Float64Array(p);
  for (let i = 0; i < p; i += 1) {
    for (let k = 0; k < p; k += 1) {
      const left = back[i * p + k]!;
      if (left === 0) continue;
      estimates[i]! += left * point.beta[k]!;
      for (let j = 0; j < p; j += 1) {
        for (let l = 0; l < p; l += 1) {
          fixedCovariance[i * p + j]! +=
            left * inverse[k * p + l]! * back[j * p + l]! * point.sigma2;
        }
      }
    }
  }
  if (made.hasIntercept) estimates[0]! += made.shift;
  const factors = criterion.factorsOf(point.theta);
  const flat = (name: string) => model.priors?.[name] === undefined;
  const fixedScales = made.scales.filter((_, j) => flat(model.fixed[j]!.name));
  const criterionInUnits =
    point.value +
    (model.method === 'reml'
      ? 2 * fixedScales.reduce((sum, scale) => sum + Math.log(scale), 0)
      : 0);
  return {
    rows: model.y.length,
    fixed: made.problem.names.map((name, j) => ({
      name,
      estimate: estimates[j]!,
      se: Math.sqrt(fixedCovariance[j * p + j]!),
    })),
    fixedCovariance,
    groups: model.groups.map((group, index): FittedGroup => {
      const { firstNode, levels, terms } = made.problem.groups[index]!;
      const from = made.problem.design.scalarOf[firstNode]!;
      const factor = factors[index]!;
      const covariance = new Float64Array(terms * terms);
      for (let i = 0; i < terms; i += 1) {
        for (let j = 0; j < terms; j += 1) {
          for (let k = 0; k <= Math.min(i, j); k += 1) {
            covariance[i * terms + j]! +=
              point.sigma2 * factor[i * terms + k]! * factor[j * terms + k]!;
          }
        }
      }
      return {
        name: group.name,
        terms: [
          ...(group.intercept === false ? [] : [INTERCEPT]),
          ...(group.slopes ?? []).map(({ name }) => name),
        ],
        levels: group.levels,
        covariance,
        effects: point.b.slice(from, from + levels * terms),
      };
    }),
    residual: point.sigma2,
    criterion: criterionInUnits,
    iterations,
    evaluations,
    relative: factors.map((factor) => factor[0] ?? 0),
  };
}
