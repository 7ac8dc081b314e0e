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
  /** One scalar and no child: most fronts are such, and all of it is one column. */
  readonly leaf: boolean;
};

/**
 * What is called for each front with its row-major matrix, the distance between its rows, and where each node of the
 * front (by position in the order) has its first scalar in it. Only columns of the front's own nodes are there to be used.
 */
export type FrontVisitor = (
  front: Front,
  matrix: Float64Array,
  ld: number,
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
  /** First own scalar of each front, and behind the last the number of scalars. */
  readonly #firstScalar: Int32Array;
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
      const leaf = own === 1 && this.#children[index]!.length === 0 && front.parent >= 0;
      this.#fronts.push({ ...front, own, size, scalar, belowScalars, inParent, at: stored, leaf });
      stored += size * own;
      work += (size ** 3 - belowScalars.length ** 3) / 3;
      largest = Math.max(largest, size);
    }
    this.#firstScalar = Int32Array.from([...this.#fronts.map((f) => f.scalar), this.scalars]);
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
      if (front.leaf) continue;
      for (const child of this.#children[index]!) {
        if (!this.#fronts[child]!.leaf) top -= this.#fronts[child]!.belowScalars.length ** 2;
      }
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
      this.#fillLocal(front);
      if (front.leaf) {
        const root = this.#factorLeaf(front, assemble);
        if (!(root > 0)) return Number.NaN;
        logDet += Math.log(root);
        continue;
      }
      f.fill(0, 0, size * size);
      assemble(front, f, size, this.#local);
      const children = this.#children[index]!;
      for (let k = children.length - 1; k >= 0; k -= 1) {
        const child = this.#fronts[children[k]!]!;
        if (child.leaf) {
          this.#subtractLeaf(child, size);
          continue;
        }
        top -= child.inParent.length ** 2;
        this.#addUpdate(top, child.inParent, size);
      }
      if (factorFront(f, size, own, 0) >= 0) return Number.NaN;
      for (let j = 0; j < own; j += 1) logDet += Math.log(f[j * size + j]!);
      for (let i = 0; i < size; i += 1) {
        for (let j = 0; j < own; j += 1) this.#l[at + i * own + j] = f[i * size + j]!;
      }
      for (let i = 0; i < below; i += 1) {
        const from = (own + i) * size + own;
        const to = top + i * below;
        for (let j = 0; j <= i; j += 1) this.#stack[to + j] = f[from + j]!;
      }
      top += below * below;
    }
    return Number.isFinite(logDet) ? 2 * logDet : Number.NaN;
  }

  /** The column of L of a leaf; returns its pivot. What it leaves to its parent is formed there, from this column. */
  #factorLeaf(front: ScalarFront, assemble: FrontVisitor): number {
    const { size, at } = front;
    const l = this.#l;
    this.#f.fill(0, 0, size);
    assemble(front, this.#f, 1, this.#local);
    const root = Math.sqrt(this.#f[0]!);
    l[at] = root;
    for (let i = 1; i < size; i += 1) l[at + i] = this.#f[i]! / root;
    return root;
  }

  #subtractLeaf({ inParent, at }: ScalarFront, size: number): void {
    const l = this.#l;
    const f = this.#f;
    for (let i = 0; i < inParent.length; i += 1) {
      const row = inParent[i]! * size;
      const factor = l[at + 1 + i]!;
      for (let j = 0; j <= i; j += 1) f[row + inParent[j]!]! -= factor * l[at + 1 + j]!;
    }
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
    const first = this.#firstScalar;
    for (let index = 0; index < this.#fronts.length; index += 1) {
      // A right-hand side of few levels stays zero but for the path from them to the root.
      if (isZero(x, first[index]! * width, first[index + 1]! * width)) continue;
      const { own, size, at, scalar, belowScalars } = this.#fronts[index]!;
      if (width === 1) {
        for (let i = 0; i < size; i += 1) {
          const row = at + i * own;
          const target = i < own ? scalar + i : belowScalars[i - own]!;
          const known = Math.min(i, own);
          let value = x[target]!;
          for (let k = 0; k < known; k += 1) value -= l[row + k]! * x[scalar + k]!;
          x[target] = i < own ? value / l[row + i]! : value;
        }
        continue;
      }
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
      this.#fillLocal(front);
      const parent = parts[front.parent];
      const part = front.leaf && parent !== undefined ? this.#f : this.#inverseFront(front, parent);
      if (part === this.#f) this.#inverseLeaf(front, parent!);
      visit(front, part, front.leaf ? 1 : front.size, this.#local);
      if (waiting[index]! > 0) parts[index] = part;
      if (front.parent >= 0) {
        waiting[front.parent]! -= 1;
        if (waiting[front.parent] === 0) parts[front.parent] = undefined;
      }
    }
  }

  /** The column of A⁻¹ of a leaf: Σ₁₂ = −Σ₂₂·y and σ₁₁ = 1/l₁₁² − Σ₁₂·y, for y = l₂₁/l₁₁. */
  #inverseLeaf({ size, at, inParent, parent }: ScalarFront, s: Float64Array): void {
    const l = this.#l;
    const out = this.#f;
    const ld = this.#fronts[parent]!.size;
    const pivot = l[at]!;
    out.fill(0, 0, size);
    for (let i = 1; i < size; i += 1) {
      const row = inParent[i - 1]! * ld;
      const mine = l[at + i]!;
      let sum = 0;
      for (let j = 1; j < i; j += 1) {
        const value = s[row + inParent[j - 1]!]!;
        sum += value * l[at + j]!;
        out[j]! -= value * mine;
      }
      out[i]! -= sum + s[row + inParent[i - 1]!]! * mine;
    }
    let own = 1 / pivot;
    for (let i = 1; i < size; i += 1) {
      out[i]! /= pivot;
      own -= out[i]! * l[at + i]!;
    }
    out[0] = own / pivot;
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

function isZero(x: Float64Array, from: number, to: number): boolean {
  for (let k = from; k < to; k += 1) if (x[k] !== 0) return false;
  return true;
}
