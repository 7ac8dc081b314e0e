import {
  factorFront,
  inverseTransposed,
  outerOfUpper,
  rowDot,
  subtractRowProducts,
} from './kernels.ts';
import type { Elimination, Front } from './symbolic.ts';

/** A front of a matrix whose nodes have widths: how many scalars it has, where they are, where L is kept. */
type ScalarFront = Front & {
  /** Own scalars and all scalars. */
  readonly own: number;
  readonly size: number;
  /** First own scalar in the order. */
  readonly scalar: number;
  /** Scalars below: where they are in the order, and where in the parent's front. */
  readonly belowScalars: Int32Array;
  readonly inParent: Int32Array;
  /** Where its columns of L (size × own, row-major) begin in the store. */
  readonly at: number;
};

/**
 * What is called for each front with its square, row-major matrix, its size, and where each node of the front
 * (by position in the order) has its first scalar in it.
 */
export type FrontVisitor = (
  front: Front,
  matrix: Float64Array,
  size: number,
  local: Int32Array,
) => void;

/**
 * Sparse Cholesky factorisation A = L·Lᵀ by the multifrontal method (Duff & Reid 1983, ACM TOMS 9(3)): each front
 * is a small dense matrix, eliminated by the dense kernels, whose remainder is added into its parent's.
 *
 * Symbolic work is done once, in the constructor; `factor`, `solve` and `inverse` then run again and again
 * without allocating much. Scalars are in the elimination's order; `scalarOf[p]` is the first one of the node at p.
 */
export class SparseCholesky {
  readonly scalars: number;
  readonly scalarOf: Int32Array;
  /** Multiplications and additions of one factorisation, roughly; tells large problems from small ones. */
  readonly work: number;
  readonly #fronts: ScalarFront[];
  readonly #children: number[][];
  readonly #l: Float64Array;
  readonly #stack: Float64Array;
  readonly #f: Float64Array;
  readonly #local: Int32Array;

  constructor(elimination: Elimination, widths: Int32Array) {
    const nodes = widths.length;
    this.scalarOf = new Int32Array(nodes + 1);
    for (let p = 0; p < nodes; p += 1) this.scalarOf[p + 1] = this.scalarOf[p]! + widths[p]!;
    this.scalars = this.scalarOf[nodes]!;
    this.#local = new Int32Array(nodes);
    this.#children = elimination.fronts.map(() => []);
    this.#fronts = [];
    let stored = 0;
    let work = 0;
    let largest = 0;
    for (const [index, front] of elimination.fronts.entries()) {
      if (front.parent >= 0) this.#children[front.parent]!.push(index);
      const scalar = this.scalarOf[front.from]!;
      const own = this.scalarOf[front.to]! - scalar;
      const belowScalars = this.#scalarsOf(front.below);
      const size = own + belowScalars.length;
      const inParent = this.#placesIn(elimination.fronts[front.parent], front.below);
      this.#fronts.push({ ...front, own, size, scalar, belowScalars, inParent, at: stored });
      stored += size * own;
      work += (size ** 3 - belowScalars.length ** 3) / 3;
      largest = Math.max(largest, size);
    }
    this.work = work;
    this.#l = new Float64Array(stored);
    this.#f = new Float64Array(largest ** 2);
    this.#stack = new Float64Array(this.#deepest());
  }

  #scalarsOf(below: Int32Array): Int32Array {
    const all: number[] = [];
    for (const p of below) {
      for (let s = this.scalarOf[p]!; s < this.scalarOf[p + 1]!; s += 1) all.push(s);
    }
    return Int32Array.from(all);
  }

  #placesIn(parent: Front | undefined, below: Int32Array): Int32Array {
    if (parent === undefined) return new Int32Array(0);
    this.#fillLocal(parent);
    const all: number[] = [];
    for (const p of below) {
      for (let k = 0; k < this.scalarOf[p + 1]! - this.scalarOf[p]!; k += 1) {
        all.push(this.#local[p]! + k);
      }
    }
    return Int32Array.from(all);
  }

  /** Where each node of a front begins in its matrix. */
  #fillLocal(front: Front): void {
    const scalar = this.scalarOf[front.from]!;
    for (let p = front.from; p < front.to; p += 1) this.#local[p] = this.scalarOf[p]! - scalar;
    let place = this.scalarOf[front.to]! - scalar;
    for (const p of front.below) {
      this.#local[p] = place;
      place += this.scalarOf[p + 1]! - this.scalarOf[p]!;
    }
  }

  #deepest(): number {
    let top = 0;
    let deepest = 0;
    for (const [index, front] of this.#fronts.entries()) {
      for (const child of this.#children[index]!)
        top -= this.#fronts[child]!.belowScalars.length ** 2;
      top += front.belowScalars.length ** 2;
      deepest = Math.max(deepest, top);
    }
    return deepest;
  }

  /**
   * Factors the matrix whose lower triangle `assemble` adds into each front: the columns of the front's own nodes.
   *
   * @returns ln det A, or NaN when A is not positive definite (or not finite)
   */
  factor(assemble: FrontVisitor): number {
    let top = 0;
    let logDet = 0;
    const f = this.#f;
    for (const [index, front] of this.#fronts.entries()) {
      const { own, size, at } = front;
      const below = size - own;
      f.fill(0, 0, size * size);
      this.#fillLocal(front);
      assemble(front, f, size, this.#local);
      const children = this.#children[index]!;
      for (let k = children.length - 1; k >= 0; k -= 1) {
        const places = this.#fronts[children[k]!]!.inParent;
        top -= places.length ** 2;
        this.#addUpdate(top, places, size);
      }
      if (factorFront(f, size, own, 0) >= 0) return Number.NaN;
      for (let j = 0; j < own; j += 1) logDet += Math.log(f[j * size + j]!);
      for (let i = 0; i < size; i += 1) {
        for (let j = 0; j < own; j += 1) this.#l[at + i * own + j] = f[i * size + j]!;
      }
      for (let i = 0; i < below; i += 1) {
        const from = (own + i) * size + own;
        this.#stack.set(f.subarray(from, from + i + 1), top + i * below);
      }
      top += below * below;
    }
    return Number.isFinite(logDet) ? 2 * logDet : Number.NaN;
  }

  #addUpdate(from: number, places: Int32Array, size: number): void {
    const below = places.length;
    for (let i = 0; i < below; i += 1) {
      const row = places[i]! * size;
      const source = from + i * below;
      for (let j = 0; j <= i; j += 1) this.#f[row + places[j]!]! += this.#stack[source + j]!;
    }
  }

  /** x ← L⁻¹x, for `width` right-hand sides beside each other: entry s of side r is x[s·width + r]. */
  solveLower(x: Float64Array, width = 1): void {
    const l = this.#l;
    for (const { own, size, at, scalar, belowScalars } of this.#fronts) {
      for (let i = 0; i < size; i += 1) {
        const row = at + i * own;
        const target = (i < own ? scalar + i : belowScalars[i - own]!) * width;
        const known = Math.min(i, own);
        for (let k = 0; k < known; k += 1) {
          const factor = l[row + k]!;
          if (factor === 0) continue;
          const source = (scalar + k) * width;
          for (let r = 0; r < width; r += 1) x[target + r]! -= factor * x[source + r]!;
        }
        if (i >= own) continue;
        const pivot = l[row + i]!;
        for (let r = 0; r < width; r += 1) x[target + r]! /= pivot;
      }
    }
  }

  /** x ← L⁻ᵀx; the second half of solving A·x = b. */
  solveUpper(x: Float64Array, width = 1): void {
    const l = this.#l;
    for (let index = this.#fronts.length - 1; index >= 0; index -= 1) {
      const { own, size, at, scalar, belowScalars } = this.#fronts[index]!;
      for (let i = size - 1; i >= 0; i -= 1) {
        const row = at + i * own;
        const source = (i < own ? scalar + i : belowScalars[i - own]!) * width;
        if (i < own) {
          const pivot = l[row + i]!;
          for (let r = 0; r < width; r += 1) x[source + r]! /= pivot;
        }
        const known = Math.min(i, own);
        for (let k = 0; k < known; k += 1) {
          const factor = l[row + k]!;
          if (factor === 0) continue;
          const target = (scalar + k) * width;
          for (let r = 0; r < width; r += 1) x[target + r]! -= factor * x[source + r]!;
        }
      }
    }
  }

  /**
   * The entries of A⁻¹ at the pattern of L (Takahashi, Fagan & Chin 1973; Erisman & Tinney 1975, CACM 18(3)): `visit`
   * sees each front's part, whose columns of own nodes are valid, from the last front to the first.
   */
  inverse(visit: FrontVisitor): void {
    const waiting = this.#children.map((children) => children.length);
    const parts: (Float64Array | undefined)[] = [];
    for (let index = this.#fronts.length - 1; index >= 0; index -= 1) {
      const front = this.#fronts[index]!;
      const part = this.#inverseFront(front, parts[front.parent]);
      this.#fillLocal(front);
      visit(front, part, front.size, this.#local);
      if (waiting[index]! > 0) parts[index] = part;
      if (front.parent >= 0) {
        waiting[front.parent]! -= 1;
        if (waiting[front.parent] === 0) parts[front.parent] = undefined;
      }
    }
  }

  #inverseFront(front: ScalarFront, parent: Float64Array | undefined): Float64Array {
    const { own, size, at, inParent } = front;
    const below = size - own;
    const s = new Float64Array(size * size);
    const n = new Float64Array(own * own);
    inverseTransposed(this.#l, at, own, own, n);
    outerOfUpper(n, own, s, size);
    if (below === 0 || parent === undefined) return s;
    const parentSize = this.#fronts[front.parent]!.size;
    for (let i = 0; i < below; i += 1) {
      const row = (own + i) * size + own;
      const source = inParent[i]! * parentSize;
      for (let j = 0; j < below; j += 1) s[row + j] = parent[source + inParent[j]!]!;
    }
    // Y = L₂₁L₁₁⁻¹ transposed; Σ₁₂ = −Yᵀ·Σ₂₂; Σ₁₁ = L₁₁⁻ᵀL₁₁⁻¹ − Σ₁₂·Y. Signs follow from the kernel's minus.
    const y = new Float64Array(own * below);
    const l21 = at + own * own;
    subtractRowProducts(y, 0, below, n, 0, own, this.#l, l21, own, own, below, own, false);
    // y now holds −Yᵀ, so subtracting its products with Σ₂₂ gives +YᵀΣ₂₂: turned below.
    const s22 = own * size + own;
    subtractRowProducts(s, own, size, y, 0, below, s, s22, size, own, below, below, false);
    for (let j = 0; j < own; j += 1) {
      for (let i = 0; i < below; i += 1) {
        const value = -s[j * size + own + i]!;
        s[j * size + own + i] = value;
        s[(own + i) * size + j] = value;
      }
    }
    for (let i = 0; i < own; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        const value = s[i * size + j]! + rowDot(y, i * below, s, j * size + own, below);
        s[i * size + j] = value;
        s[j * size + i] = value;
      }
    }
    return s;
  }
}
