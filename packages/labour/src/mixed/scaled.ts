import type { Design } from './design.ts';
import { INTERCEPT, type MixedModel } from './model.ts';
import { type Orthogonal, orthogonal, overUpper } from './orthogonal.ts';
import type { EffectPrior, Problem, ProblemGroup } from './problem.ts';

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

/** A column in well-scaled numbers: (value − middle) / scale. */
type Moved = { readonly middle: number; readonly scale: number; readonly values: Float64Array };

function movedColumn(values: Float64Array, mayShift: boolean): Moved {
  const middle = mayShift ? middleOf(values) : 0;
  const moved = values.map((value) => value - middle);
  const scale = scaleOf(moved);
  return { middle, scale, values: moved.map((value) => value / scale) };
}

/** The terms of a group's levels, and how their covariates were moved. */
export type ScaledGroup = {
  readonly intercept: boolean;
  readonly slopes: readonly Moved[];
};

/** A slope's covariate may be moved where the intercept can take that up: correlated with it, and free. */
function scaledGroups({ groups }: MixedModel): ScaledGroup[] {
  return groups.map(({ intercept = true, correlated = true, spread, slopes = [] }) => ({
    intercept,
    slopes: slopes.map(({ values }) =>
      movedColumn(values, intercept && correlated && spread === undefined),
    ),
  }));
}

function designOf(
  model: MixedModel,
  scaled: readonly ScaledGroup[],
): { design: Design; groups: ProblemGroup[] } {
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
    for (const [index, { of }] of model.groups.entries()) {
      const { firstNode } = groups[index]!;
      const { intercept, slopes } = scaled[index]!;
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
export type Scaled = {
  readonly problem: Problem;
  /** Taken from y. */
  readonly shift: number;
  readonly columns: readonly Moved[];
  readonly groups: readonly ScaledGroup[];
  readonly hasIntercept: boolean;
  /** How the columns were made orthogonal; not where effects have priors, which are of each column by itself. */
  readonly turned: Orthogonal | undefined;
};

export function scaledModel(model: MixedModel): Scaled {
  const hasIntercept = model.intercept !== false;
  const moved = scaledGroups(model);
  const { design, groups } = designOf(model, moved);
  const mayShift = hasIntercept && model.priors?.[INTERCEPT] === undefined;
  const shift = mayShift ? middleOf(model.y) : 0;
  const columns = model.fixed.map(({ values }) => movedColumn(values, mayShift));
  const ones = new Float64Array(model.y.length).fill(1);
  const names = [...(hasIntercept ? [INTERCEPT] : []), ...model.fixed.map(({ name }) => name)];
  const scales = [...(hasIntercept ? [1] : []), ...columns.map(({ scale }) => scale)];
  const effects = names.map((name, j): EffectPrior => {
    const prior = model.priors?.[name];
    return prior === undefined
      ? { mean: 0, sd: Infinity }
      : { mean: prior.mean * scales[j]!, sd: prior.sd * scales[j]! };
  });
  const x = [...(hasIntercept ? [ones] : []), ...columns.map(({ values }) => values)];
  const turned = model.priors === undefined ? orthogonal(x, names, model.weights) : undefined;
  return {
    shift,
    columns,
    turned,
    groups: moved,
    hasIntercept,
    problem: {
      y: model.y.map((value) => value - shift),
      x: turned?.q ?? x,
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

/** The matrix that takes effects of an intercept, if there is one, and of moved columns back to the model's units. */
function wayBack(hasIntercept: boolean, columns: readonly Moved[]): Float64Array {
  const first = hasIntercept ? 1 : 0;
  const size = first + columns.length;
  const back = new Float64Array(size * size);
  if (hasIntercept) back[0] = 1;
  for (const [j, { middle, scale }] of columns.entries()) {
    back[(first + j) * size + first + j] = 1 / scale;
    if (hasIntercept) back[first + j] = -middle / scale;
  }
  return back;
}

export function fixedWayBack({ hasIntercept, columns, turned }: Scaled): Float64Array {
  const back = wayBack(hasIntercept, columns);
  return turned === undefined ? back : overUpper(back, turned.r);
}

/** ln |det| of what the columns of the problem were multiplied by: with REML an effect is integrated in its own units. */
export function lnUnits({ columns, turned, hasIntercept, problem }: Scaled): number {
  const p = problem.x.length;
  let sum = 0;
  for (const [j, { scale }] of columns.entries()) {
    const prior = problem.effects?.[j + (hasIntercept ? 1 : 0)];
    if ((prior?.sd ?? Infinity) === Infinity) sum += Math.log(scale);
  }
  for (let j = 0; j < p && turned !== undefined; j += 1) sum += Math.log(turned.r[j * p + j]!);
  return sum;
}

export const groupWayBack = ({ intercept, slopes }: ScaledGroup) => wayBack(intercept, slopes);
