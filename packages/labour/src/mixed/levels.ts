import { addCongruent, addTraces } from './blocks.ts';
import type { CrossProducts } from './cross-products.ts';
import { type Parameter, type Problem, parametersOf } from './problem.ts';

/**
 * The relative covariance factor Λ(θ): one small triangle for all levels of a group. Vectors by node are in the design's
 * order, those of the factorisation in the elimination's; this knows the way between.
 */
export class Levels {
  readonly problem: Problem;
  readonly parameters: readonly Parameter[];
  readonly products: CrossProducts;
  /** Place in the elimination's order of each scalar by node. */
  readonly place: Int32Array;
  /** Group of the node at each position. */
  readonly groupAt: Int32Array;

  constructor(problem: Problem, products: CrossProducts, scalarOf: Int32Array) {
    const { design, groups } = problem;
    this.problem = problem;
    this.parameters = parametersOf(groups);
    this.products = products;
    this.place = new Int32Array(design.scalarOf[design.nodes]!);
    this.groupAt = new Int32Array(design.nodes);
    for (const [index, { firstNode, levels }] of groups.entries()) {
      for (let node = firstNode; node < firstNode + levels; node += 1) {
        const at = products.elimination.position[node]!;
        this.groupAt[at] = index;
        for (let t = 0; t < design.widths[node]!; t += 1) {
          this.place[design.scalarOf[node]! + t] = scalarOf[at]! + t;
        }
      }
    }
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
  scatterTransposed(
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
          out[this.place[from + t]! * width + r] = sum;
        }
      }
    }
  }

  /** Λᵀ of `count` columns beside each other, into the elimination's order, the first ones of `width`. */
  scatterColumns(
    factors: readonly Float64Array[],
    x: Float64Array,
    count: number,
    out: Float64Array,
    width: number,
  ): void {
    this.eachLevel((index, from, terms) => {
      const factor = factors[index]!;
      for (let t = 0; t < terms; t += 1) {
        const to = this.place[from + t]! * width;
        for (let k = t; k < terms; k += 1) {
          const entry = factor[k * terms + t]!;
          const source = (from + k) * count;
          for (let r = 0; r < count; r += 1) out[to + r]! += entry * x[source + r]!;
        }
      }
    });
  }

  /** Out of the elimination's order, from column `r` of `width`. */
  gather(x: Float64Array, width: number, r: number): Float64Array {
    const out = new Float64Array(this.place.length);
    for (let s = 0; s < out.length; s += 1) out[s] = x[this.place[s]! * width + r]!;
    return out;
  }

  /** Λx by node. */
  multiplied(factors: readonly Float64Array[], x: Float64Array): Float64Array {
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

  /** Each level with its group, where its scalars by node begin, and how many they are. */
  eachLevel(visit: (group: number, from: number, terms: number) => void): void {
    const { groups, design } = this.problem;
    for (const [index, { firstNode, levels, terms }] of groups.entries()) {
      let from = design.scalarOf[firstNode]!;
      for (let level = 0; level < levels; level += 1, from += terms) visit(index, from, terms);
    }
  }

  /** ΛᵀZᵀWZΛ + I, the columns of a front's own nodes. */
  assemble(
    factors: readonly Float64Array[],
    from: number,
    to: number,
    f: Float64Array,
    size: number,
    local: Int32Array,
  ): void {
    const { values, ownAt, blockStart, later, blockAt } = this.products;
    for (let p = from; p < to; p += 1) {
      const factor = factors[this.groupAt[p]!]!;
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
        const theirs = factors[this.groupAt[other]!]!;
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

  /** Adds A⁻¹·ΛᵀZᵀWZ, within each level, for the blocks of the node at a position. */
  addTraces(
    at: number,
    factors: readonly Float64Array[],
    s: Float64Array,
    size: number,
    local: Int32Array,
    sums: readonly Float64Array[],
  ): void {
    const { values, ownAt, blockStart, later, blockAt, widths } = this.products;
    const mine = this.groupAt[at]!;
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
      const theirs = this.groupAt[other]!;
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
}
