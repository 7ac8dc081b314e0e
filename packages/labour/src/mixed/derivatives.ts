import type { Criterion, Point } from './criterion.ts';
import { dot } from './dot.ts';
import { smallInverse } from './small-cholesky.ts';

/** First and second derivatives; `size` parameters, the last of them ln σ where it is not profiled. */
export type Slope = {
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
  readonly size: number;
};

/**
 * First derivatives at a point, and the average-information approximation of the second ones (Gilmour, Thompson &
 * Cullis 1995, Biometrics 51) with the part that the second derivatives of Λ give. The point must be the one that
 * `at` was last asked for: its factorisation is used. The last entry is for ln σ, only where it is not profiled.
 */
export function slopeOf(criterion: Criterion, point: Point): Slope {
  const { p, parameters, levels } = criterion;
  const { groups, method } = criterion.problem;
  const { theta, sigma2, u, v, cx, sx } = point;
  const factors = levels.factorsOf(theta);
  const sums = groups.map(({ terms }) => new Float64Array(terms * terms));
  criterion.cholesky.inverse((front, s, size, local) => {
    for (let at = front.from; at < front.to; at += 1)
      levels.addTraces(at, factors, s, size, local, sums);
  });

  const g = cx.slice();
  criterion.cholesky.solveUpper(g, p + 1);
  const e = besideZ(criterion, factors, g);
  const inverse = smallInverse(sx);
  if (method === 'reml') {
    const mixed = new Float64Array(p);
    levels.eachLevel((index, from, terms) => {
      for (let column = 0; column < terms; column += 1) {
        const own = levels.place[from + column]! * (p + 1);
        for (let i = 0; i < p; i += 1) {
          let value = 0;
          for (let j = 0; j < p; j += 1) value += inverse[i * p + j]! * g[own + j]!;
          mixed[i] = value;
        }
        for (let row = 0; row < terms; row += 1) {
          let value = 0;
          for (let i = 0; i < p; i += 1) value += mixed[i]! * e[(from + row) * p + i]!;
          sums[index]![column * terms + row]! -= value;
        }
      }
    });
  }

  const size = parameters.length + (criterion.profiled ? 0 : 1);
  const gradient = new Float64Array(size);
  const hessian = new Float64Array(size * size);
  const uv = groups.map(({ terms }) => new Float64Array(terms * terms));
  const vv = groups.map(({ terms }) => new Float64Array(terms * terms));
  levels.eachLevel((index, from, terms) => {
    for (let row = 0; row < terms; row += 1) {
      for (let column = 0; column < terms; column += 1) {
        uv[index]![row * terms + column]! += v[from + row]! * u[from + column]!;
        vv[index]![row * terms + column]! += v[from + row]! * v[from + column]!;
      }
    }
  });
  const spread = lnSpreads(criterion, theta, sigma2);
  for (const [k, { group, row, column }] of parameters.entries()) {
    const { terms } = groups[group]!;
    gradient[k] =
      2 * (sums[group]![column * terms + row]! - uv[group]![row * terms + column]! / sigma2);
  }
  addInformation(criterion, point, factors, e, inverse, hessian, size);
  addSecondOfFactor(criterion, factors, sums, vv, sigma2, hessian, size);
  if (!criterion.profiled) {
    const last = size - 1;
    const pull = criterion.pull(sigma2);
    const degrees =
      (method === 'reml' ? criterion.n - criterion.flat : criterion.n) - (p - criterion.flat);
    let slope = 2 * degrees - (2 * point.squares) / sigma2;
    for (let j = 0; j < p; j += 1) slope += 2 * pull[j]! * inverse[j * p + j]!;
    if (criterion.problem.residual !== undefined) {
      const { mean, sd } = criterion.problem.residual;
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

/**
 * E = ZᵀWX − ZᵀWZΛG for G = A⁻¹ΛᵀZᵀWX: what X leaves beside Z, by node, row-major. Since AG = ΛᵀZᵀWX, ΛᵀE = G; only where Λ
 * is singular it has to be multiplied out.
 */
function besideZ(
  { p, levels, normal, products }: Criterion,
  factors: readonly Float64Array[],
  g: Float64Array,
): Float64Array {
  const e = normal.zx.slice();
  if (!levels.problem.groups.every(({ terms }, index) => isRegular(factors[index]!, terms))) {
    for (let r = 0; r < p; r += 1) {
      const taken = products.times(levels.multiplied(factors, levels.gather(g, p + 1, r)));
      for (let s = 0; s < taken.length; s += 1) e[s * p + r]! -= taken[s]!;
    }
    return e;
  }
  levels.eachLevel((index, from, terms) => {
    const factor = factors[index]!;
    for (let t = terms - 1; t >= 0; t -= 1) {
      const source = levels.place[from + t]! * (p + 1);
      for (let r = 0; r < p; r += 1) {
        let value = g[source + r]!;
        for (let k = t + 1; k < terms; k += 1) {
          value -= factor[k * terms + t]! * e[(from + k) * p + r]!;
        }
        e[(from + t) * p + r] = value / factor[t * terms + t]!;
      }
    }
  });
  return e;
}

/** Whether a triangle may be divided by. */
function isRegular(factor: Float64Array, terms: number): boolean {
  for (let t = 0; t < terms; t += 1) if (!(Math.abs(factor[t * terms + t]!) > 1e-6)) return false;
  return true;
}

/** How far ln sd of each spread with a prior lies from the prior's mean. */
function lnSpreads(
  { parameters, problem }: Criterion,
  theta: Float64Array,
  sigma2: number,
): { k: number; away: number; sd: number }[] {
  return parameters.flatMap(({ group, row, column }, k) => {
    const prior = problem.groups[group]!.spread;
    if (prior === undefined || row > 0 || column > 0) return [];
    const away = Math.log(Math.abs(theta[k]!)) + Math.log(sigma2) / 2 - prior.mean;
    return [{ k, away, sd: prior.sd }];
  });
}

/** yᵀP·V_k·P·V_l·Py for every pair of parameters. */
function addInformation(
  criterion: Criterion,
  { u, v, squares, sigma2 }: Point,
  factors: readonly Float64Array[],
  e: Float64Array,
  inverse: Float64Array,
  hessian: Float64Array,
  size: number,
): void {
  const { p, parameters } = criterion;
  const count = parameters.length;
  const hs: Float64Array[] = [];
  const ks: Float64Array[] = [];
  const solved = new Float64Array(criterion.cholesky.scalars * count);
  const onX: Float64Array[] = [];
  for (const [k, { group, row, column }] of parameters.entries()) {
    const { firstNode, levels, terms } = criterion.problem.groups[group]!;
    const factor = factors[group]!;
    const h = new Float64Array(u.length);
    let from = criterion.problem.design.scalarOf[firstNode]!;
    for (let level = 0; level < levels; level += 1, from += terms) {
      h[from + row]! += u[from + column]!;
      for (let t = column; t < terms; t += 1) {
        h[from + t]! += factor[t * terms + column]! * v[from + row]!;
      }
    }
    hs.push(h);
    const kh = criterion.products.times(h);
    ks.push(kh);
    criterion.levels.scatterTransposed(factors, kh, solved, count, k);
    const own = new Float64Array(p);
    for (let s = 0; s < h.length; s += 1) {
      if (h[s] === 0) continue;
      for (let i = 0; i < p; i += 1) own[i]! += e[s * p + i]! * h[s]!;
    }
    onX.push(own);
  }
  criterion.cholesky.solveLower(solved, count);
  const inner = new Float64Array(count * count);
  for (let s = 0; s < criterion.cholesky.scalars; s += 1) {
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
    if (!criterion.profiled) {
      hessian[k * size + size - 1]! += withSigma;
      hessian[(size - 1) * size + k]! += withSigma;
      continue;
    }
    for (let l = 0; l < count; l += 1) {
      const other = (2 * dot(hs[l]!, v)) / sigma2;
      hessian[k * size + l]! -= (withSigma * other * sigma2) / (4 * total);
    }
  }
  if (!criterion.profiled) hessian[size * size - 1]! += (4 * total) / sigma2;
}

/** What the second derivatives of ΛΛᵀ add: 2·(Σ ZᵀPZ − Σ vvᵀ/σ²) for two entries of one column. */
function addSecondOfFactor(
  { problem, parameters }: Criterion,
  factors: readonly Float64Array[],
  sums: readonly Float64Array[],
  vv: readonly Float64Array[],
  sigma2: number,
  hessian: Float64Array,
  size: number,
): void {
  for (const [group, { terms }] of problem.groups.entries()) {
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
    for (const [k, one] of parameters.entries()) {
      if (one.group !== group) continue;
      for (const [l, two] of parameters.entries()) {
        if (two.group !== group || two.column !== one.column) continue;
        const at = one.row * terms + two.row;
        hessian[k * size + l]! += 2 * (d[at]! - vv[group]![at]! / sigma2);
      }
    }
  }
}
