import { SparseCholesky } from './cholesky.ts';
import { CrossProducts } from './cross-products.ts';
import { addTimes, transposeTimes } from './design.ts';
import { dot } from './dot.ts';
import { Levels } from './levels.ts';
import { NormalEquations } from './normal-equations.ts';
import type { Parameter, Problem } from './problem.ts';
import { type SmallCholesky, smallCholesky, smallSolve } from './small-cholesky.ts';

/** The criterion at one place, with what was solved for there. */
export type Point = {
  /** Free entries of Λ. */
  readonly theta: Float64Array;
  /** Residual variance σ²: the best one for theta, or the one given where priors forbid to profile it. */
  readonly sigma2: number;
  /** −2 ln (restricted) likelihood, all constants in, with −2 ln of the priors' densities (theirs up to constants). */
  readonly value: number;
  readonly beta: Float64Array;
  /** Spherical random effects, and b = Λu, both by node. */
  readonly u: Float64Array;
  readonly b: Float64Array;
  /** Zᵀe for the weighted residuals e. */
  readonly v: Float64Array;
  /** Σ w·residual² + |u|², without the priors' part. */
  readonly squares: number;
  /** L⁻¹ΛᵀZᵀW of X and, as the last column, y: in the elimination's order, columns beside each other. */
  readonly cx: Float64Array;
  readonly sx: SmallCholesky;
};

export class CollinearError extends RangeError {
  readonly column: string;
  constructor(column: string) {
    super(
      `The fixed term ${column} is a combination of the terms before it (or constant), so its effect cannot be told apart. Leave it out, or give it a prior.`,
    );
    this.column = column;
  }
}

const LN_2PI = Math.log(2 * Math.PI);

/**
 * The criterion of a linear mixed model and its derivatives, after Bates, Mächler, Bolker & Walker (2015,
 * J. Stat. Softw. 67(1)): penalised least squares with the relative covariance factor Λ(θ), and
 *
 *     −2 ln L_R(θ, σ) = (n − p)·ln 2πσ² + ln|ΛᵀZᵀWZΛ + I| + ln|R_X|² + r²/σ² − Σ ln w     (REML, flat effects)
 *
 * σ is profiled where nothing but the data speaks of it. An effect with a prior N(m, s²) is integrated like a random
 * one of known variance: it adds σ²/s² to its diagonal of R_XᵀR_X, and ln s² − ln σ² to the criterion.
 */
export class Criterion {
  readonly problem: Problem;
  readonly parameters: readonly Parameter[];
  readonly profiled: boolean;
  readonly cholesky: SparseCholesky;
  readonly products: CrossProducts;
  readonly n: number;
  readonly p: number;
  /** Effects without a prior. */
  readonly flat: number;
  readonly levels: Levels;
  readonly normal: NormalEquations;

  /** @param former - a criterion of the same design, whose analysis of it is taken over (and overwritten) */
  constructor(problem: Problem, former?: Criterion) {
    const { design, x, y, groups, weights, effects } = problem;
    this.problem = problem;
    this.n = y.length;
    this.p = x.length;
    this.flat = effects === undefined ? this.p : effects.filter(({ sd }) => sd === Infinity).length;
    if (this.flat < this.p && problem.method === 'ml') {
      throw new RangeError('Priors of fixed effects need the method reml; got ml.');
    }
    this.profiled =
      this.flat === this.p &&
      problem.residual === undefined &&
      groups.every(({ spread }) => spread === undefined);
    this.products = former?.products ?? new CrossProducts(design);
    this.products.weigh(weights);
    this.cholesky =
      former?.cholesky ?? new SparseCholesky(this.products.elimination, this.products.widths);
    this.levels = new Levels(problem, this.products, this.cholesky.scalarOf);
    this.parameters = this.levels.parameters;
    this.normal = new NormalEquations(problem, former?.normal.x);
  }

  /**
   * What a linear predictor xᵀβ + zᵀb depends on, in coordinates that are independent with variance σ² given the data:
   * σ²·(image · image) is its posterior variance, σ²·(one · other) the covariance of two. The point must be the one that
   * `at` was last asked for.
   */
  imageOf({ theta, cx, sx }: Point, x: Float64Array, z: Float64Array): Float64Array {
    const { p } = this;
    const scalars = this.cholesky.scalars;
    const image = new Float64Array(scalars + p);
    this.levels.scatterTransposed(this.levels.factorsOf(theta), z, image, 1, 0);
    const c = image.subarray(0, scalars);
    this.cholesky.solveLower(c);
    image.set(x, scalars);
    for (let s = 0; s < scalars; s += 1) {
      if (c[s] === 0) continue;
      for (let i = 0; i < p; i += 1) image[scalars + i]! -= cx[s * (p + 1) + i]! * c[s]!;
    }
    for (let i = 0; i < p; i += 1) {
      let value = image[scalars + i]!;
      for (let k = 0; k < i; k += 1) value -= sx.l[i * p + k]! * image[scalars + k]!;
      image[scalars + i] = value / sx.l[i * p + i]!;
    }
    return image;
  }

  /** Variance that an effect of one term keeps when every other effect is known. */
  aloneOf({ theta, sigma2 }: Point, node: number): number {
    const at = this.products.elimination.position[node]!;
    const factor = this.levels.factorsOf(theta)[this.levels.groupAt[at]!]![0]!;
    const own = this.products.values[this.products.ownAt[at]!]!;
    return (sigma2 * factor ** 2) / (factor ** 2 * own + 1);
  }

  /** σ²/s² of each effect: 0 for a flat one. */
  pull(sigma2: number): Float64Array {
    const pull = new Float64Array(this.p);
    this.problem.effects?.forEach(({ sd }, j) => {
      pull[j] = sd === Infinity ? 0 : sigma2 / sd ** 2;
    });
    return pull;
  }

  /**
   * @param theta - free entries of Λ, as `parameters` lists them
   * @param lnSigma - ln of the residual standard deviation; only where it is not profiled
   * @returns undefined where the numbers overflow: a place to step back from
   * @throws CollinearError when a flat effect cannot be told from those before it
   */
  at(theta: Float64Array, lnSigma?: number): Point | undefined {
    const { n, p } = this;
    const { design, y, weights, effects, method } = this.problem;
    const factors = this.levels.factorsOf(theta);
    const logDet = this.cholesky.factor((front, f, size, local) => {
      this.levels.assemble(factors, front.from, front.to, f, size, local);
    });
    if (!Number.isFinite(logDet)) return undefined;
    const width = p + 1;
    const c = new Float64Array(this.cholesky.scalars * width);
    this.levels.scatterColumns(factors, this.normal.zx, p, c, width);
    this.levels.scatterTransposed(factors, this.normal.zy, c, width, p);
    this.cholesky.solveLower(c, width);

    const given = lnSigma === undefined ? 1 : Math.exp(2 * lnSigma);
    const pull = this.pull(given);
    const sxx = this.normal.xx.slice();
    const scale = new Float64Array(p);
    const beta = this.normal.xy.slice();
    for (let i = 0; i < p; i += 1) {
      scale[i] = this.normal.xx[i * p + i]! + pull[i]!;
      sxx[i * p + i]! += pull[i]!;
      beta[i]! += pull[i]! * (effects?.[i]?.mean ?? 0);
    }
    for (let s = 0; s < this.cholesky.scalars; s += 1) {
      const row = s * width;
      for (let i = 0; i < p; i += 1) {
        const value = c[row + i]!;
        if (value === 0) continue;
        for (let j = 0; j <= i; j += 1) sxx[i * p + j]! -= value * c[row + j]!;
        beta[i]! -= value * c[row + p]!;
      }
    }
    const sx = smallCholesky(sxx, p, scale);
    if (typeof sx === 'number') {
      this.#mustDiffer(pull);
      return undefined; // not X's fault: Λ is so large that rounding is all that is left of it
    }
    smallSolve(sx, beta);

    const back = new Float64Array(this.cholesky.scalars);
    for (let s = 0; s < back.length; s += 1) {
      let value = c[s * width + p]!;
      for (let i = 0; i < p; i += 1) {
        value -= c[s * width + i]! * beta[i]!;
      }
      back[s] = value;
    }
    this.cholesky.solveUpper(back);
    const u = this.levels.gather(back, 1, 0);
    let b = this.levels.multiplied(factors, u);
    const e = new Float64Array(n);
    const residuals = () => {
      e.set(y);
      this.normal.x.subtractTimes(beta, e);
      addTimes(design, b, -1, e);
      if (weights !== undefined) for (let row = 0; row < n; row += 1) e[row]! *= weights[row]!;
    };
    residuals();
    let v = transposeTimes(design, e);
    // One step of refinement: cancels what was lost when the cross-products were formed.
    this.#refine(factors, sx, c, pull, e, v, beta, u);
    b = this.levels.multiplied(factors, u);
    residuals();
    v = transposeTimes(design, e);

    let squares = dot(u, u);
    for (let row = 0; row < n; row += 1) {
      squares += e[row]! ** 2 / (weights === undefined ? 1 : weights[row]!);
    }
    const degrees = method === 'reml' ? n - this.flat : n;
    const sigma2 = this.profiled ? squares / degrees : given;
    let value =
      degrees * (LN_2PI + Math.log(sigma2)) - this.normal.lnWeights + logDet + squares / sigma2;
    if (method === 'reml') value += sx.logDet;
    effects?.forEach(({ mean, sd }, j) => {
      if (sd === Infinity) return;
      value += 2 * Math.log(sd) - Math.log(sigma2) + ((beta[j]! - mean) / sd) ** 2;
    });
    value += this.#spreadPenalty(theta, sigma2);
    return { theta, sigma2, value, beta, u, b, v, squares, cx: c, sx };
  }

  /** @throws CollinearError for a column of X that is a combination of those before it */
  #mustDiffer(pull: Float64Array): void {
    const xx = this.normal.xx.slice();
    const scale = new Float64Array(this.p);
    for (let i = 0; i < this.p; i += 1) {
      xx[i * this.p + i]! += pull[i]!;
      scale[i] = xx[i * this.p + i]!;
    }
    const column = smallCholesky(xx, this.p, scale);
    if (typeof column === 'number') throw new CollinearError(this.problem.names[column]!);
  }

  #refine(
    factors: readonly Float64Array[],
    sx: SmallCholesky,
    cx: Float64Array,
    pull: Float64Array,
    e: Float64Array,
    v: Float64Array,
    beta: Float64Array,
    u: Float64Array,
  ): void {
    const { p } = this;
    const { effects } = this.problem;
    const c = new Float64Array(this.cholesky.scalars);
    this.levels.scatterTransposed(factors, v, c, 1, 0);
    for (let s = 0; s < u.length; s += 1) c[this.levels.place[s]!]! -= u[s]!;
    this.cholesky.solveLower(c);
    const change = this.normal.x.transposeTimes(e);
    for (let i = 0; i < p; i += 1) {
      change[i]! -= pull[i]! * (beta[i]! - (effects?.[i]?.mean ?? 0));
    }
    for (let s = 0; s < c.length; s += 1) {
      for (let i = 0; i < p; i += 1) change[i]! -= cx[s * (p + 1) + i]! * c[s]!;
    }
    smallSolve(sx, change);
    for (let s = 0; s < c.length; s += 1) {
      for (let i = 0; i < p; i += 1) c[s]! -= cx[s * (p + 1) + i]! * change[i]!;
    }
    this.cholesky.solveUpper(c);
    for (let i = 0; i < p; i += 1) beta[i]! += change[i]!;
    for (let s = 0; s < u.length; s += 1) u[s]! += c[this.levels.place[s]!]!;
  }

  /** −2 ln of the spread priors' densities of ln sd, without constants. */
  #spreadPenalty(theta: Float64Array, sigma2: number): number {
    let penalty = 0;
    const add = (lnSd: number, prior: { mean: number; sd: number } | undefined) => {
      if (prior !== undefined) penalty += ((lnSd - prior.mean) / prior.sd) ** 2;
    };
    add(Math.log(sigma2) / 2, this.problem.residual);
    for (const [k, { group, row, column }] of this.parameters.entries()) {
      if (row > 0 || column > 0) continue;
      add(Math.log(Math.abs(theta[k]!)) + Math.log(sigma2) / 2, this.problem.groups[group]!.spread);
    }
    return penalty;
  }
}
