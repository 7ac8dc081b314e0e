import { SparseCholesky } from './cholesky.ts';
import { CrossProducts } from './cross-products.ts';
import { addTimes, transposeTimes } from './design.ts';
import { type Parameter, type Problem, parametersOf } from './problem.ts';
import { type SmallCholesky, smallCholesky, smallInverse, smallSolve } from './small-cholesky.ts';

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
  /** L⁻¹ΛᵀZᵀWX in the elimination's order, columns beside each other. */
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
  readonly #flat: number;
  /** Place in the elimination's order of each scalar by node. */
  readonly #place: Int32Array;
  readonly #groupAt: Int32Array;
  readonly #zx: Float64Array[];
  readonly #zy: Float64Array;
  readonly #xx: Float64Array;
  readonly #xy: Float64Array;
  readonly #lnWeights: number;

  /** @param former - a criterion of the same design, whose analysis of it is taken over (and overwritten) */
  constructor(problem: Problem, former?: Criterion) {
    const { design, x, y, groups, weights, effects } = problem;
    this.problem = problem;
    this.n = y.length;
    this.p = x.length;
    this.parameters = parametersOf(groups);
    this.#flat =
      effects === undefined ? this.p : effects.filter(({ sd }) => sd === Infinity).length;
    if (this.#flat < this.p && problem.method === 'ml') {
      throw new RangeError('Priors of fixed effects need the method reml; got ml.');
    }
    this.profiled =
      this.#flat === this.p &&
      problem.residual === undefined &&
      groups.every(({ spread }) => spread === undefined);
    this.products = former?.products ?? new CrossProducts(design);
    this.products.weigh(weights);
    const { elimination, widths } = this.products;
    this.cholesky = former?.cholesky ?? new SparseCholesky(elimination, widths);
    this.#place = new Int32Array(this.cholesky.scalars);
    this.#groupAt = new Int32Array(design.nodes);
    for (const [index, { firstNode, levels }] of groups.entries()) {
      for (let node = firstNode; node < firstNode + levels; node += 1) {
        const at = elimination.position[node]!;
        this.#groupAt[at] = index;
        for (let t = 0; t < design.widths[node]!; t += 1) {
          this.#place[design.scalarOf[node]! + t] = this.cholesky.scalarOf[at]! + t;
        }
      }
    }
    const weighted = (column: Float64Array) =>
      weights === undefined ? column : column.map((value, row) => value * weights[row]!);
    const wx = x.map(weighted);
    const wy = weighted(y);
    this.#zx = wx.map((column) => transposeTimes(design, column));
    this.#zy = transposeTimes(design, wy);
    this.#xx = new Float64Array(this.p * this.p);
    this.#xy = new Float64Array(this.p);
    for (let i = 0; i < this.p; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        const value = dot(wx[i]!, x[j]!);
        this.#xx[i * this.p + j] = value;
        this.#xx[j * this.p + i] = value;
      }
      this.#xy[i] = dot(wx[i]!, y);
    }
    this.#lnWeights = weights === undefined ? 0 : weights.reduce((sum, w) => sum + Math.log(w), 0);
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
    this.#scatterTransposed(this.factorsOf(theta), z, image, 1, 0);
    const c = image.subarray(0, scalars);
    this.cholesky.solveLower(c);
    for (let i = 0; i < p; i += 1) {
      let value = x[i]!;
      for (let s = 0; s < scalars; s += 1) value -= cx[s * p + i]! * c[s]!;
      for (let k = 0; k < i; k += 1) value -= sx.l[i * p + k]! * image[scalars + k]!;
      image[scalars + i] = value / sx.l[i * p + i]!;
    }
    return image;
  }

  /** Variance that an effect of one term keeps when every other effect is known. */
  aloneOf({ theta, sigma2 }: Point, node: number): number {
    const at = this.products.elimination.position[node]!;
    const factor = this.factorsOf(theta)[this.#groupAt[at]!]![0]!;
    const own = this.products.values[this.products.ownAt[at]!]!;
    return (sigma2 * factor ** 2) / (factor ** 2 * own + 1);
  }

  /** Λ of each group, row-major. */
  factorsOf(theta: Float64Array): Float64Array[] {
    const factors = this.problem.groups.map(({ terms }) => new Float64Array(terms * terms));
    for (const [k, { group, row, column }] of this.parameters.entries()) {
      factors[group]![row * this.problem.groups[group]!.terms + column] = theta[k]!;
    }
    return factors;
  }

  /** Λᵀx into the elimination's order, at column `r` of `width`. */
  #scatterTransposed(
    factors: readonly Float64Array[],
    x: Float64Array,
    out: Float64Array,
    width: number,
    r: number,
  ): void {
    const { groups, design } = this.problem;
    for (const [index, { firstNode, levels, terms }] of groups.entries()) {
      const factor = factors[index]!;
      let from = design.scalarOf[firstNode]!;
      for (let level = 0; level < levels; level += 1, from += terms) {
        for (let t = 0; t < terms; t += 1) {
          let sum = 0;
          for (let k = t; k < terms; k += 1) sum += factor[k * terms + t]! * x[from + k]!;
          out[this.#place[from + t]! * width + r] = sum;
        }
      }
    }
  }

  #gather(x: Float64Array, width: number, r: number): Float64Array {
    const out = new Float64Array(this.#place.length);
    for (let s = 0; s < out.length; s += 1) out[s] = x[this.#place[s]! * width + r]!;
    return out;
  }

  /** Λx by node. */
  #multiplied(factors: readonly Float64Array[], x: Float64Array): Float64Array {
    const { groups, design } = this.problem;
    const out = new Float64Array(x.length);
    for (const [index, { firstNode, levels, terms }] of groups.entries()) {
      const factor = factors[index]!;
      let from = design.scalarOf[firstNode]!;
      for (let level = 0; level < levels; level += 1, from += terms) {
        for (let t = 0; t < terms; t += 1) {
          let sum = 0;
          for (let k = 0; k <= t; k += 1) sum += factor[t * terms + k]! * x[from + k]!;
          out[from + t] = sum;
        }
      }
    }
    return out;
  }

  /** ΛᵀZᵀWZΛ + I, the columns of a front's own nodes. */
  #assemble(
    factors: readonly Float64Array[],
    from: number,
    to: number,
    f: Float64Array,
    size: number,
    local: Int32Array,
  ): void {
    const { values, ownAt, blockStart, later, blockAt } = this.products;
    for (let p = from; p < to; p += 1) {
      const factor = factors[this.#groupAt[p]!]!;
      const terms = this.products.widths[p]!;
      const column = local[p]!;
      addCongruent(
        values,
        ownAt[p]!,
        factor,
        terms,
        factor,
        terms,
        f,
        column * size + column,
        size,
      );
      for (let t = 0; t < terms; t += 1) f[(column + t) * size + column + t]! += 1;
      for (let k = blockStart[p]!; k < blockStart[p + 1]!; k += 1) {
        const other = later[k]!;
        const theirs = factors[this.#groupAt[other]!]!;
        const rows = this.products.widths[other]!;
        addCongruent(
          values,
          blockAt[k]!,
          theirs,
          rows,
          factor,
          terms,
          f,
          local[other]! * size + column,
          size,
        );
      }
    }
  }

  /** σ²/s² of each effect: 0 for a flat one. */
  #pull(sigma2: number): Float64Array {
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
    const { design, y, x, weights, effects, method } = this.problem;
    const factors = this.factorsOf(theta);
    const logDet = this.cholesky.factor((front, f, size, local) => {
      this.#assemble(factors, front.from, front.to, f, size, local);
    });
    if (!Number.isFinite(logDet)) return undefined;
    const width = p + 1;
    const c = new Float64Array(this.cholesky.scalars * width);
    for (let r = 0; r < p; r += 1) this.#scatterTransposed(factors, this.#zx[r]!, c, width, r);
    this.#scatterTransposed(factors, this.#zy, c, width, p);
    this.cholesky.solveLower(c, width);

    const given = lnSigma === undefined ? 1 : Math.exp(2 * lnSigma);
    const pull = this.#pull(given);
    const sxx = this.#xx.slice();
    const scale = new Float64Array(p);
    const beta = this.#xy.slice();
    for (let i = 0; i < p; i += 1) {
      scale[i] = this.#xx[i * p + i]! + pull[i]!;
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

    const cx = new Float64Array(this.cholesky.scalars * p);
    const back = new Float64Array(this.cholesky.scalars);
    for (let s = 0; s < back.length; s += 1) {
      let value = c[s * width + p]!;
      for (let i = 0; i < p; i += 1) {
        cx[s * p + i] = c[s * width + i]!;
        value -= c[s * width + i]! * beta[i]!;
      }
      back[s] = value;
    }
    this.cholesky.solveUpper(back);
    const u = this.#gather(back, 1, 0);
    let b = this.#multiplied(factors, u);
    const e = new Float64Array(n);
    const residuals = () => {
      e.set(y);
      for (let i = 0; i < p; i += 1) {
        const column = x[i]!;
        const effect = beta[i]!;
        for (let row = 0; row < n; row += 1) e[row]! -= effect * column[row]!;
      }
      addTimes(design, b, -1, e);
      if (weights !== undefined) for (let row = 0; row < n; row += 1) e[row]! *= weights[row]!;
    };
    residuals();
    let v = transposeTimes(design, e);
    // One step of refinement: cancels what was lost when the cross-products were formed.
    this.#refine(factors, sx, cx, pull, e, v, beta, u);
    b = this.#multiplied(factors, u);
    residuals();
    v = transposeTimes(design, e);

    let squares = dot(u, u);
    for (let row = 0; row < n; row += 1) {
      squares += e[row]! ** 2 / (weights === undefined ? 1 : weights[row]!);
    }
    const degrees = method === 'reml' ? n - this.#flat : n;
    const sigma2 = this.profiled ? squares / degrees : given;
    let value = degrees * (LN_2PI + Math.log(sigma2)) - this.#lnWeights + logDet + squares / sigma2;
    if (method === 'reml') value += sx.logDet;
    effects?.forEach(({ mean, sd }, j) => {
      if (sd === Infinity) return;
      value += 2 * Math.log(sd) - Math.log(sigma2) + ((beta[j]! - mean) / sd) ** 2;
    });
    value += this.#spreadPenalty(theta, sigma2);
    return { theta, sigma2, value, beta, u, b, v, squares, cx, sx };
  }

  /** @throws CollinearError for a column of X that is a combination of those before it */
  #mustDiffer(pull: Float64Array): void {
    const xx = this.#xx.slice();
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
    const { x, effects } = this.problem;
    const c = new Float64Array(this.cholesky.scalars);
    this.#scatterTransposed(factors, v, c, 1, 0);
    for (let s = 0; s < u.length; s += 1) c[this.#place[s]!]! -= u[s]!;
    this.cholesky.solveLower(c);
    const change = new Float64Array(p);
    for (let i = 0; i < p; i += 1) {
      change[i] = dot(x[i]!, e) - pull[i]! * (beta[i]! - (effects?.[i]?.mean ?? 0));
      for (let s = 0; s < c.length; s += 1) change[i]! -= cx[s * p + i]! * c[s]!;
    }
    smallSolve(sx, change);
    for (let s = 0; s < c.length; s += 1) {
      for (let i = 0; i < p; i += 1) c[s]! -= cx[s * p + i]! * change[i]!;
    }
    this.cholesky.solveUpper(c);
    for (let i = 0; i < p; i += 1) beta[i]! += change[i]!;
    for (let s = 0; s < u.length; s += 1) u[s]! += c[this.#place[s]!]!;
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

  /**
   * First derivatives at a point, and the average-information approximation of the second ones (Gilmour, Thompson &
   * Cullis 1995, Biometrics 51) with the part that the second derivatives of Λ give. The point must be the one that
   * `at` was last asked for: its factorisation is used. The last entry is for ln σ, only where it is not profiled.
   */
  slope(point: Point): { gradient: Float64Array; hessian: Float64Array; size: number } {
    const { p, parameters } = this;
    const { groups, method } = this.problem;
    const { theta, sigma2, u, v, cx, sx } = point;
    const factors = this.factorsOf(theta);
    const sums = groups.map(({ terms }) => new Float64Array(terms * terms));
    this.cholesky.inverse((front, s, size, local) => {
      for (let at = front.from; at < front.to; at += 1)
        this.#traces(at, factors, s, size, local, sums);
    });

    // G = A⁻¹ΛᵀZᵀWX and E = ZᵀWX − ZᵀWZΛG: what X leaves beside Z.
    const g = cx.slice();
    this.cholesky.solveUpper(g, p);
    const inverse = smallInverse(sx);
    const gs: Float64Array[] = [];
    const es: Float64Array[] = [];
    for (let r = 0; r < p; r += 1) {
      const own = this.#gather(g, p, r);
      gs.push(own);
      const taken = this.products.times(this.#multiplied(factors, own));
      es.push(this.#zx[r]!.map((value, s) => value - taken[s]!));
    }
    if (method === 'reml') {
      for (let i = 0; i < p; i += 1) {
        const mixed = new Float64Array(u.length);
        for (let j = 0; j < p; j += 1) {
          const weight = inverse[i * p + j]!;
          for (let s = 0; s < mixed.length; s += 1) mixed[s]! += weight * gs[j]![s]!;
        }
        this.#eachLevel((index, from, terms) => {
          for (let column = 0; column < terms; column += 1) {
            for (let row = 0; row < terms; row += 1) {
              sums[index]![column * terms + row]! -= mixed[from + column]! * es[i]![from + row]!;
            }
          }
        });
      }
    }

    const size = parameters.length + (this.profiled ? 0 : 1);
    const gradient = new Float64Array(size);
    const hessian = new Float64Array(size * size);
    const uv = groups.map(({ terms }) => new Float64Array(terms * terms));
    const vv = groups.map(({ terms }) => new Float64Array(terms * terms));
    this.#eachLevel((index, from, terms) => {
      for (let row = 0; row < terms; row += 1) {
        for (let column = 0; column < terms; column += 1) {
          uv[index]![row * terms + column]! += v[from + row]! * u[from + column]!;
          vv[index]![row * terms + column]! += v[from + row]! * v[from + column]!;
        }
      }
    });
    const spread = this.#lnSpreads(theta, sigma2);
    for (const [k, { group, row, column }] of parameters.entries()) {
      const { terms } = groups[group]!;
      gradient[k] =
        2 * (sums[group]![column * terms + row]! - uv[group]![row * terms + column]! / sigma2);
    }
    this.#information(point, factors, es, inverse, hessian, size);
    this.#secondOfFactor(factors, sums, vv, sigma2, hessian, size);
    if (!this.profiled) {
      const last = size - 1;
      const pull = this.#pull(sigma2);
      const degrees = (method === 'reml' ? this.n - this.#flat : this.n) - (p - this.#flat);
      let slope = 2 * degrees - (2 * point.squares) / sigma2;
      for (let j = 0; j < p; j += 1) slope += 2 * pull[j]! * inverse[j * p + j]!;
      if (this.problem.residual !== undefined) {
        const { mean, sd } = this.problem.residual;
        slope += (2 * (Math.log(sigma2) / 2 - mean)) / sd ** 2;
        hessian[last * size + last]! += 2 / sd ** 2;
      }
      for (const { k, away, sd } of spread) {
        slope += (2 * away) / sd ** 2;
        gradient[k]! += (2 * away) / sd ** 2 / theta[k]!;
        hessian[k * size + k]! += (2 * (1 - away)) / sd ** 2 / theta[k]! ** 2;
        hessian[k * size + last]! += 2 / sd ** 2 / theta[k]!;
        hessian[last * size + k]! += 2 / sd ** 2 / theta[k]!;
        hessian[last * size + last]! += 2 / sd ** 2;
      }
      gradient[last] = slope;
    }
    return { gradient, hessian, size };
  }

  /** How far ln sd of each spread with a prior lies from the prior's mean. */
  #lnSpreads(theta: Float64Array, sigma2: number): { k: number; away: number; sd: number }[] {
    return this.parameters.flatMap(({ group, row, column }, k) => {
      const prior = this.problem.groups[group]!.spread;
      if (prior === undefined || row > 0 || column > 0) return [];
      const away = Math.log(Math.abs(theta[k]!)) + Math.log(sigma2) / 2 - prior.mean;
      return [{ k, away, sd: prior.sd }];
    });
  }

  #eachLevel(visit: (group: number, from: number, terms: number) => void): void {
    const { groups, design } = this.problem;
    for (const [index, { firstNode, levels, terms }] of groups.entries()) {
      let from = design.scalarOf[firstNode]!;
      for (let level = 0; level < levels; level += 1, from += terms) visit(index, from, terms);
    }
  }

  /** Adds A⁻¹·ΛᵀZᵀWZ, within each level, for the blocks of the node at a position. */
  #traces(
    at: number,
    factors: readonly Float64Array[],
    s: Float64Array,
    size: number,
    local: Int32Array,
    sums: readonly Float64Array[],
  ): void {
    const { values, ownAt, blockStart, later, blockAt, widths } = this.products;
    const mine = this.#groupAt[at]!;
    const terms = widths[at]!;
    const own = local[at]!;
    addTraces(
      values,
      ownAt[at]!,
      terms,
      1,
      factors[mine]!,
      terms,
      s,
      own * size + own,
      size,
      1,
      terms,
      sums[mine]!,
    );
    for (let k = blockStart[at]!; k < blockStart[at + 1]!; k += 1) {
      const other = later[k]!;
      const theirs = this.#groupAt[other]!;
      const rows = widths[other]!;
      const corner = local[other]! * size + own;
      const block = blockAt[k]!;
      addTraces(
        values,
        block,
        terms,
        1,
        factors[theirs]!,
        rows,
        s,
        corner,
        size,
        1,
        terms,
        sums[mine]!,
      );
      addTraces(
        values,
        block,
        1,
        terms,
        factors[mine]!,
        terms,
        s,
        corner,
        1,
        size,
        rows,
        sums[theirs]!,
      );
    }
  }

  /** yᵀP·V_k·P·V_l·Py for every pair of parameters. */
  #information(
    { u, v, squares, sigma2 }: Point,
    factors: readonly Float64Array[],
    es: readonly Float64Array[],
    inverse: Float64Array,
    hessian: Float64Array,
    size: number,
  ): void {
    const { p, parameters } = this;
    const count = parameters.length;
    const hs: Float64Array[] = [];
    const ks: Float64Array[] = [];
    const solved = new Float64Array(this.cholesky.scalars * count);
    const onX: Float64Array[] = [];
    for (const [k, { group, row, column }] of parameters.entries()) {
      const { firstNode, levels, terms } = this.problem.groups[group]!;
      const factor = factors[group]!;
      const h = new Float64Array(u.length);
      let from = this.problem.design.scalarOf[firstNode]!;
      for (let level = 0; level < levels; level += 1, from += terms) {
        h[from + row]! += u[from + column]!;
        for (let t = column; t < terms; t += 1) {
          h[from + t]! += factor[t * terms + column]! * v[from + row]!;
        }
      }
      hs.push(h);
      const kh = this.products.times(h);
      ks.push(kh);
      this.#scatterTransposed(factors, kh, solved, count, k);
      onX.push(Float64Array.from(es, (e) => dot(e, h)));
    }
    this.cholesky.solveLower(solved, count);
    const inner = new Float64Array(count * count);
    for (let s = 0; s < this.cholesky.scalars; s += 1) {
      for (let k = 0; k < count; k += 1) {
        const value = solved[s * count + k]!;
        for (let l = 0; l <= k; l += 1) inner[k * count + l]! += value * solved[s * count + l]!;
      }
    }
    for (let k = 0; k < count; k += 1) {
      for (let l = 0; l <= k; l += 1) {
        let value = dot(hs[k]!, ks[l]!) - inner[k * count + l]!;
        for (let i = 0; i < p; i += 1) {
          for (let j = 0; j < p; j += 1) {
            value -= onX[k]![i]! * inverse[i * p + j]! * onX[l]![j]!;
          }
        }
        hessian[k * size + l]! += value / sigma2;
        if (l < k) hessian[l * size + k]! += value / sigma2;
      }
    }
    // With ln σ: V = 2σ²H, and PHP = P. Where σ is profiled it is swept out at once.
    const total = squares;
    for (let k = 0; k < count; k += 1) {
      const withSigma = (2 * dot(hs[k]!, v)) / sigma2;
      if (!this.profiled) {
        hessian[k * size + size - 1]! += withSigma;
        hessian[(size - 1) * size + k]! += withSigma;
        continue;
      }
      for (let l = 0; l < count; l += 1) {
        const other = (2 * dot(hs[l]!, v)) / sigma2;
        hessian[k * size + l]! -= (withSigma * other * sigma2) / (4 * total);
      }
    }
    if (!this.profiled) hessian[size * size - 1]! += (4 * total) / sigma2;
  }

  /** What the second derivatives of ΛΛᵀ add: 2·(Σ ZᵀPZ − Σ vvᵀ/σ²) for two entries of one column. */
  #secondOfFactor(
    factors: readonly Float64Array[],
    sums: readonly Float64Array[],
    vv: readonly Float64Array[],
    sigma2: number,
    hessian: Float64Array,
    size: number,
  ): void {
    for (const [group, { terms }] of this.problem.groups.entries()) {
      const factor = factors[group]!;
      let usable = true;
      for (let t = 0; t < terms; t += 1) usable &&= Math.abs(factor[t * terms + t]!) > 1e-7;
      if (!usable) continue;
      // ZᵀPZ = Λ⁻ᵀ·(ΛᵀZᵀPZ): back substitution, a column at a time.
      const d = sums[group]!.slice();
      for (let column = 0; column < terms; column += 1) {
        for (let row = terms - 1; row >= 0; row -= 1) {
          let value = d[row * terms + column]!;
          for (let k = row + 1; k < terms; k += 1) {
            value -= factor[k * terms + row]! * d[k * terms + column]!;
          }
          d[row * terms + column] = value / factor[row * terms + row]!;
        }
      }
      for (const [k, one] of this.parameters.entries()) {
        if (one.group !== group) continue;
        for (const [l, two] of this.parameters.entries()) {
          if (two.group !== group || two.column !== one.column) continue;
          const at = one.row * terms + two.row;
          hessian[k * size + l]! += 2 * (d[at]! - vv[group]![at]! / sigma2);
        }
      }
    }
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}

/** f += Λ_rowsᵀ·B·Λ_columns for one block B (row-major, rows × columns). */
function addCongruent(
  values: Float64Array,
  at: number,
  rowFactor: Float64Array,
  rows: number,
  columnFactor: Float64Array,
  columns: number,
  f: Float64Array,
  corner: number,
  size: number,
): void {
  if (rows === 1 && columns === 1) {
    f[corner]! += rowFactor[0]! * values[at]! * columnFactor[0]!;
    return;
  }
  for (let i = 0; i < rows; i += 1) {
    for (let j = 0; j < columns; j += 1) {
      let sum = 0;
      for (let k = i; k < rows; k += 1) {
        let inner = 0;
        for (let l = j; l < columns; l += 1) {
          inner += values[at + k * columns + l]! * columnFactor[l * columns + j]!;
        }
        sum += rowFactor[k * rows + i]! * inner;
      }
      f[corner + i * size + j]! += sum;
    }
  }
}

/**
 * sums[b, a] += Σᵢ A⁻¹[b, i]·(Λᵀ·B)[i, a]: `b` and `a` run over the terms of one node, `i` over those of the node whose
 * factor is given. B[k, a] is at + k·rowStep + a·columnStep; A⁻¹[b, i] is corner + i·iStep + b·bStep.
 */
function addTraces(
  values: Float64Array,
  at: number,
  rowStep: number,
  columnStep: number,
  factor: Float64Array,
  inner: number,
  s: Float64Array,
  corner: number,
  iStep: number,
  bStep: number,
  terms: number,
  sums: Float64Array,
): void {
  if (inner === 1 && terms === 1) {
    sums[0]! += s[corner]! * factor[0]! * values[at]!;
    return;
  }
  for (let a = 0; a < terms; a += 1) {
    for (let i = 0; i < inner; i += 1) {
      let product = 0;
      for (let k = i; k < inner; k += 1) {
        product += factor[k * inner + i]! * values[at + k * rowStep + a * columnStep]!;
      }
      for (let b = 0; b < terms; b += 1) {
        sums[b * terms + a]! += s[corner + i * iStep + b * bStep]! * product;
      }
    }
  }
}
