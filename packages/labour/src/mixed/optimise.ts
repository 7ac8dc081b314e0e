import type { Criterion, Point } from './criterion.ts';
import { slopeOf } from './derivatives.ts';
import { smallCholesky, smallSolve } from './small-cholesky.ts';

export type Optimum = {
  readonly point: Point;
  readonly iterations: number;
  readonly evaluations: number;
  /** False when the limit of iterations, or of what can be computed, was met first. */
  readonly converged: boolean;
};

/** Where to begin: free entries of Λ, and ln σ where it is not profiled. */
export type Start = { readonly theta: Float64Array; readonly lnSigma: number };

/** How closely to search. Where the answer is only a step on the way, less will do. */
export type Care = {
  /** Settled when the next step would move no parameter by more than this, in its own scale. */
  readonly settled?: number | undefined;
  /** Second derivatives by differences for problems of up to this much work a factorisation, by average information above. */
  readonly differencedBelow?: number | undefined;
  readonly mostIterations?: number | undefined;
  /** Leave ln σ where the search begins. */
  readonly sigmaHeld?: boolean | undefined;
};

/** Below this a diagonal entry of Λ is taken for zero, when zero is no worse. */
const NEGLIGIBLE = 1e-4;
/** Up to this much work a factorisation, the differences are worth their price. */
const SMALL = 3e6;
const MOST_ITERATIONS = 200;
const MOST_HALVINGS = 30;
const SETTLED = 1e-9;
/** Where a step costs seconds: the corrected steps shorten faster than tenfold near the end, so what is left is less than this. */
const SETTLED_LARGE = 1e-8;
/** Or when no step descends and none promised more than this share of the criterion. */
const LEVEL = 1e-9;

/**
 * Minimises a criterion by Newton steps that step back whenever they do not descend.
 *
 * Second derivatives: differences of gradients for small problems (quadratic convergence, so the last step is exact to
 * rounding); for large ones the average information, corrected by what the last step has shown (symmetric rank one),
 * since each gradient costs an inverse. A standard deviation may be exactly zero: an entry that reaches it is held there,
 * and let go again where the criterion falls with it.
 */
export function minimise(
  criterion: Criterion,
  start: Start,
  progress?: (done: number) => void,
  care: Care = {},
): Optimum {
  const search = new Search(criterion, start, care);
  return search.run(progress);
}

class Search {
  readonly #criterion: Criterion;
  readonly #size: number;
  readonly #diagonal: boolean[];
  readonly #held: boolean[];
  readonly #settled: number;
  readonly #differencedBelow: number;
  readonly #most: number;
  #x: Float64Array;
  #point: Point;
  /** The place that the criterion's factorisation is of. */
  #factoredAt: Float64Array | undefined;
  #evaluations = 0;

  constructor(criterion: Criterion, start: Start, care: Care) {
    this.#differencedBelow = care.differencedBelow ?? SMALL;
    this.#settled =
      care.settled ?? (criterion.cholesky.work < this.#differencedBelow ? SETTLED : SETTLED_LARGE);
    this.#most = care.mostIterations ?? MOST_ITERATIONS;
    this.#criterion = criterion;
    const count = criterion.parameters.length;
    this.#size = count + (criterion.profiled ? 0 : 1);
    this.#diagonal = criterion.parameters.map(({ row, column }) => row === column);
    this.#held = Array.from({ length: this.#size }, () => false);
    if (care.sigmaHeld === true && !criterion.profiled) this.#held[count] = true;
    this.#x = new Float64Array(this.#size);
    this.#x.set(start.theta);
    if (!criterion.profiled) this.#x[count] = start.lnSigma;
    const point = this.#at(this.#x);
    if (point === undefined) {
      throw new RangeError(
        'The model cannot be evaluated where the search begins: its numbers overflow.',
      );
    }
    this.#point = point;
  }

  #at(x: Float64Array): Point | undefined {
    this.#evaluations += 1;
    this.#factoredAt = x;
    const count = this.#criterion.parameters.length;
    return this.#criterion.at(x.slice(0, count), this.#criterion.profiled ? undefined : x[count]);
  }

  #gradientAt(x: Float64Array): Float64Array | undefined {
    const point = this.#at(x);
    return point === undefined ? undefined : slopeOf(this.#criterion, point).gradient;
  }

  #free(): number[] {
    return [...this.#x.keys()].filter((k) => !this.#held[k]);
  }

  /** Second derivatives among the free parameters by central differences; undefined at the edge of what can be computed. */
  #differenced(free: readonly number[]): Float64Array | undefined {
    const size = free.length;
    const hessian = new Float64Array(size * size);
    for (const [i, k] of free.entries()) {
      const step = 1e-4 * Math.max(Math.abs(this.#x[k]!), 1e-2);
      const up = this.#x.slice();
      up[k]! += step;
      const down = this.#x.slice();
      down[k]! -= step;
      const above = this.#gradientAt(up);
      const below = this.#gradientAt(down);
      if (above === undefined || below === undefined) return undefined;
      for (const [j, l] of free.entries()) {
        hessian[i * size + j] = (above[l]! - below[l]!) / (2 * step);
      }
    }
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < i; j += 1) {
        const mean = (hessian[i * size + j]! + hessian[j * size + i]!) / 2;
        hessian[i * size + j] = mean;
        hessian[j * size + i] = mean;
      }
    }
    return hessian;
  }

  run(progress?: (done: number) => void): Optimum {
    if (this.#size === 0) return this.#result(0, true);
    const small = this.#criterion.cholesky.work < this.#differencedBelow;
    let last: { x: Float64Array; gradient: Float64Array } | undefined;
    for (let iteration = 1; iteration <= this.#most; iteration += 1) {
      progress?.(iteration);
      const slope = slopeOf(this.#criterion, this.#point);
      const free = this.#free();
      const gradient = Float64Array.from(free, (k) => slope.gradient[k]!);
      let hessian = small ? this.#differenced(free) : undefined;
      if (hessian === undefined) {
        hessian = new Float64Array(free.length ** 2);
        for (const [i, k] of free.entries()) {
          for (const [j, l] of free.entries()) {
            hessian[i * free.length + j] = slope.hessian[k * slope.size + l]!;
          }
        }
        if (!small && last !== undefined) corrected(hessian, free, this.#x, slope.gradient, last);
      }
      const step = descent(hessian, gradient);
      last = { x: this.#x.slice(), gradient: slope.gradient };
      const moved = this.#move(free, step, gradient);
      const settled = free.every(
        (k, i) => Math.abs(step[i]!) <= this.#settled * Math.max(Math.abs(this.#x[k]!), 1e-3),
      );
      if (!moved || settled) {
        if (this.#release()) {
          last = undefined;
          continue;
        }
        return this.#result(iteration, settled || this.#isLevel(step, gradient));
      }
    }
    return this.#result(this.#most, false);
  }

  /** Whether a step that could not be gone would have won no more than rounding. */
  #isLevel(step: Float64Array, gradient: Float64Array): boolean {
    const promised = step.reduce((sum, value, i) => sum - (value * gradient[i]!) / 2, 0);
    return promised <= LEVEL * Math.max(1000, Math.abs(this.#point.value));
  }

  #result(iterations: number, converged: boolean): Optimum {
    // The factorisation must be that of the answer, and of no place tried since: whoever goes on from here solves with it.
    const point = this.#factoredAt === this.#x ? this.#point : (this.#at(this.#x) ?? this.#point);
    return { point, iterations, evaluations: this.#evaluations, converged };
  }

  /** Goes along a step, half of it, a quarter …: to the first place that is no worse. */
  #move(free: readonly number[], step: Float64Array, gradient: Float64Array): boolean {
    const noise = 1e-11 * Math.max(1, Math.abs(this.#point.value));
    const slope = step.reduce((sum, value, i) => sum + value * gradient[i]!, 0);
    for (let halving = 0, share = 1; halving < MOST_HALVINGS; halving += 1, share /= 2) {
      const x = this.#x.slice();
      for (const [i, k] of free.entries()) x[k]! += share * step[i]!;
      const zeroed = this.#mirror(x);
      const point = this.#at(x);
      if (point !== undefined && point.value <= this.#point.value + 1e-4 * share * slope + noise) {
        for (const k of zeroed) this.#held[k] = true;
        this.#x = x;
        this.#point = point;
        return true;
      }
    }
    // No better place along it: rounding is all that is left. The factorisation goes back to where we stand.
    this.#point = this.#at(this.#x) ?? this.#point;
    return false;
  }

  /** A column of Λ may change its sign: its diagonal is kept at or above zero. Returns those that became zero. */
  #mirror(x: Float64Array): number[] {
    const { parameters } = this.#criterion;
    const zeroed: number[] = [];
    for (const [k, one] of parameters.entries()) {
      if (!this.#diagonal[k] || this.#held[k]) continue;
      if (Math.abs(x[k]!) < NEGLIGIBLE && this.#criterion.profiled) {
        x[k] = 0;
        zeroed.push(k);
      } else if (x[k]! < 0) {
        for (const [l, other] of parameters.entries()) {
          if (other.group === one.group && other.column === one.column) x[l] = -x[l]!;
        }
      }
    }
    return zeroed;
  }

  /** Lets go of a standard deviation held at zero where the criterion falls with it. */
  #release(): boolean {
    for (const [k, held] of this.#held.entries()) {
      if (!held || k >= this.#diagonal.length) continue;
      const x = this.#x.slice();
      x[k] = 10 * NEGLIGIBLE;
      const point = this.#at(x);
      if (point === undefined) continue;
      if (slopeOf(this.#criterion, point).gradient[k]! < 0 && point.value < this.#point.value) {
        this.#held[k] = false;
        this.#x = x;
        this.#point = point;
        return true;
      }
    }
    return false;
  }
}

/** Corrects second derivatives by the change of the gradient over the last step (symmetric rank one). */
function corrected(
  hessian: Float64Array,
  free: readonly number[],
  x: Float64Array,
  gradient: Float64Array,
  last: { x: Float64Array; gradient: Float64Array },
): void {
  const size = free.length;
  const s = Float64Array.from(free, (k) => x[k]! - last.x[k]!);
  const miss = Float64Array.from(free, (k, i) => {
    let value = gradient[k]! - last.gradient[k]!;
    for (let j = 0; j < size; j += 1) value -= hessian[i * size + j]! * s[j]!;
    return value;
  });
  const scale = miss.reduce((sum, value, i) => sum + value * s[i]!, 0);
  const lengths = Math.hypot(...miss) * Math.hypot(...s);
  if (Math.abs(scale) <= 1e-8 * lengths) return;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) hessian[i * size + j]! += (miss[i]! * miss[j]!) / scale;
  }
}

/** −H⁻¹g, with as much added to H's diagonal as makes it positive definite. */
function descent(hessian: Float64Array, gradient: Float64Array): Float64Array {
  const size = gradient.length;
  let added = 0;
  for (;;) {
    const tried = hessian.slice();
    for (let i = 0; i < size; i += 1) {
      const own = Math.abs(hessian[i * size + i]!);
      tried[i * size + i]! += added * Math.max(own, 1e-8);
    }
    const factor = smallCholesky(tried, size);
    if (typeof factor !== 'number') {
      return smallSolve(
        factor,
        gradient.map((value) => -value),
      );
    }
    added = added === 0 ? 1e-3 : added * 4;
    if (!(added < 1e12)) return gradient.map((value) => -value);
  }
}
