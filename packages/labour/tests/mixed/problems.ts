import type { EffectPrior, Problem, SpreadPrior } from '../../src/mixed/problem.ts';
import { type Bits, seededBits, standardNormal, uniform } from '../../src/random.ts';
import { inverted, type Matrix, times, transposed, zeros } from './dense.ts';

/** A group to make up: how many levels, how many slopes beside the intercept, how many members share a row. */
export type MadeGroup = {
  readonly levels: number;
  readonly slopes?: number;
  readonly correlated?: boolean;
  readonly members?: number;
  readonly spread?: SpreadPrior;
};

export type Wanted = {
  readonly rows: number;
  readonly fixed: number;
  readonly groups: readonly MadeGroup[];
  readonly method: 'reml' | 'ml';
  readonly weighted?: boolean;
  readonly effects?: readonly EffectPrior[];
  readonly residual?: SpreadPrior;
};

/** Made-up numbers, as the engine wants them and as plain matrices. */
export type Made = { readonly problem: Problem; readonly z: Matrix; readonly groupOf: number[] };

/** A problem that follows from a seed: a response that depends on everything it should. */
export function madeProblem(wanted: Wanted, seed: number): Made {
  const bits = seededBits(seed);
  const { rows, method, residual, effects } = wanted;
  const x = Array.from({ length: wanted.fixed }, (_, j) =>
    Float64Array.from({ length: rows }, () => (j === 0 ? 1 : standardNormal(bits))),
  );
  const terms = wanted.groups.map(({ slopes = 0 }) => 1 + slopes);
  const firstNode = wanted.groups.map((_, g) =>
    wanted.groups.slice(0, g).reduce((sum, { levels }) => sum + levels, 0),
  );
  const widths = Int32Array.from(
    wanted.groups.flatMap(({ levels }, g) => Array.from({ length: levels }, () => terms[g]!)),
  );
  const scalarOf = new Int32Array(widths.length + 1);
  for (const [node, width] of widths.entries()) scalarOf[node + 1] = scalarOf[node]! + width;
  const groupOf = wanted.groups.flatMap(({ levels }, g) =>
    Array.from({ length: levels * terms[g]! }, () => g),
  );
  const z = zeros(rows, groupOf.length);
  const rowStart = new Int32Array(rows + 1);
  const node: number[] = [];
  const coefficientOf: number[] = [];
  const coefficients: number[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (const [g, { levels, members = 1 }] of wanted.groups.entries()) {
      const covariates = Array.from({ length: terms[g]! - 1 }, () => standardNormal(bits));
      for (const { level, share } of sharers(levels, members, bits)) {
        const name = firstNode[g]! + level;
        node.push(name);
        coefficientOf.push(coefficients.length);
        for (const [t, value] of [1, ...covariates].entries()) {
          coefficients.push(share * value);
          z[row]![scalarOf[name]! + t]! += share * value;
        }
      }
    }
    rowStart[row + 1] = node.length;
  }
  const truth = groupOf.map(() => 0.8 * standardNormal(bits));
  const y = Float64Array.from(
    z,
    (row, r) =>
      row.reduce((sum, value, s) => sum + value * truth[s]!, 0) +
      x.reduce((sum, column, j) => sum + column[r]! * (1 - j / 3), 0) +
      0.7 * standardNormal(bits),
  );
  const weights = wanted.weighted
    ? Float64Array.from({ length: rows }, () => 0.2 + 3 * uniform(bits))
    : undefined;
  const problem: Problem = {
    y,
    x,
    names: x.map((_, j) => `x${j}`),
    weights,
    method,
    effects,
    residual,
    groups: wanted.groups.map(({ levels, correlated = true, spread }, g) => ({
      firstNode: firstNode[g]!,
      levels,
      terms: terms[g]!,
      correlated,
      spread,
    })),
    design: {
      rows,
      nodes: widths.length,
      widths,
      scalarOf,
      rowStart,
      node: Int32Array.from(node),
      coefficientOf: Int32Array.from(coefficientOf),
      coefficients: Float64Array.from(coefficients),
    },
  };
  return { problem, z, groupOf };
}

/** Different levels with shares that add up to 1. */
function sharers(levels: number, members: number, bits: Bits): { level: number; share: number }[] {
  const chosen = new Map<number, number>();
  while (chosen.size < Math.min(members, levels)) {
    chosen.set(Math.floor(uniform(bits) * levels), 0.2 + uniform(bits));
  }
  const total = [...chosen.values()].reduce((sum, share) => sum + share, 0);
  return [...chosen].map(([level, share]) => ({ level, share: share / total }));
}

/** −2 ln likelihood by the textbook: V built whole, what has no prior swept out by generalised least squares. */
export function denseValue(
  { problem, z, groupOf }: Made,
  factors: readonly Float64Array[],
  sigma2: number,
): { value: number; flatEffects: number[]; flatCovariance: Matrix } {
  const { y, x, weights, effects, groups, method, residual } = problem;
  const n = y.length;
  const cov = zeros(groupOf.length, groupOf.length);
  for (const [g, { terms }] of groups.entries()) {
    const l = factors[g]!;
    for (let from = groupOf.indexOf(g); groupOf[from] === g; from += terms) {
      for (let i = 0; i < terms; i += 1) {
        for (let j = 0; j < terms; j += 1) {
          for (let k = 0; k < terms; k += 1) {
            cov[from + i]![from + j]! += sigma2 * l[i * terms + k]! * l[j * terms + k]!;
          }
        }
      }
    }
  }
  const v = groupOf.length === 0 ? zeros(n, n) : times(times(z, cov), transposed(z));
  const centred = [...y];
  const flat: Float64Array[] = [];
  for (const [j, column] of x.entries()) {
    const { mean, sd } = effects?.[j] ?? { mean: 0, sd: Infinity };
    if (sd === Infinity) flat.push(column);
    else {
      for (let r = 0; r < n; r += 1) {
        centred[r]! -= mean * column[r]!;
        for (let c = 0; c < n; c += 1) v[r]![c]! += sd ** 2 * column[r]! * column[c]!;
      }
    }
  }
  for (let r = 0; r < n; r += 1) v[r]![r]! += sigma2 / (weights?.[r] ?? 1);
  const { inverse, logDet } = inverted(v);
  const a = zeros(n, flat.length).map((row, r) => row.map((_, j) => flat[j]![r]!));
  const weighed = times(transposed(a), inverse);
  const { inverse: flatCovariance, logDet: flatLogDet } = inverted(times(weighed, a));
  const solved = times(flatCovariance, times(weighed, transposed([centred])));
  const rest = centred.map(
    (value, r) => value - a[r]!.reduce((sum, entry, j) => sum + entry * solved[j]![0]!, 0),
  );
  const squares = times(times([rest], inverse), transposed([rest]))[0]![0]!;
  let value = n * Math.log(2 * Math.PI) + logDet + squares;
  if (method === 'reml') value += flatLogDet - flat.length * Math.log(2 * Math.PI);
  const about = (sd2: number, prior: SpreadPrior | undefined) =>
    prior === undefined ? 0 : ((Math.log(sd2) / 2 - prior.mean) / prior.sd) ** 2;
  value += about(sigma2, residual);
  for (const [g, { spread }] of groups.entries()) {
    value += about(sigma2 * factors[g]![0]! ** 2, spread);
  }
  return { value, flatEffects: solved.map((row) => row[0]!), flatCovariance };
}
