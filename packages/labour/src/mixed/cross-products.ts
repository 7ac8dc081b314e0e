import { type ByNode, type Design, entriesByNode, meetings } from './design.ts';
import { type Elimination, eliminationOf } from './symbolic.ts';

/**
 * ZᵀWZ by blocks of nodes, laid out for an elimination: for the node at each position its own block, then a block
 * for each later node that it meets. A block is row-major: rows of the later node's terms, columns of this node's.
 */
export class CrossProducts {
  readonly design: Design;
  readonly elimination: Elimination;
  /** Terms of the node at each position. */
  readonly widths: Int32Array;
  /** Own block of each position. */
  readonly ownAt: Int32Array;
  /** Blocks of position p: from blockStart[p] up to blockStart[p + 1]. */
  readonly blockStart: Int32Array;
  /** Position of the later node, and where its values begin. */
  readonly later: Int32Array;
  readonly blockAt: Int32Array;
  readonly values: Float64Array;
  readonly #byNode: ByNode;

  constructor(design: Design) {
    this.design = design;
    this.#byNode = entriesByNode(design);
    const graph = meetings(design, this.#byNode);
    this.elimination = eliminationOf(graph);
    const { order, position } = this.elimination;
    this.widths = order.map((node) => design.widths[node]!);
    this.ownAt = new Int32Array(design.nodes);
    this.blockStart = new Int32Array(design.nodes + 1);
    const later: number[] = [];
    const blockAt: number[] = [];
    let stored = 0;
    for (let p = 0; p < design.nodes; p += 1) {
      const node = order[p]!;
      const width = this.widths[p]!;
      this.ownAt[p] = stored;
      stored += width * width;
      for (let k = graph.start[node]!; k < graph.start[node + 1]!; k += 1) {
        const other = position[graph.neighbours[k]!]!;
        if (other < p) continue;
        later.push(other);
        blockAt.push(stored);
        stored += width * this.widths[other]!;
      }
      this.blockStart[p + 1] = later.length;
    }
    this.later = Int32Array.from(later);
    this.blockAt = Int32Array.from(blockAt);
    this.values = new Float64Array(stored);
  }

  /** Fills the values for the weights given, a row each. */
  weigh(weights: Float64Array | undefined): void {
    const { rowStart, node, coefficientOf, coefficients, widths, nodes } = this.design;
    const { order, position } = this.elimination;
    const { start, entries, rowOf } = this.#byNode;
    const values = this.values;
    values.fill(0);
    const block = new Int32Array(nodes);
    for (let p = 0; p < nodes; p += 1) {
      const own = order[p]!;
      const width = widths[own]!;
      block[own] = this.ownAt[p]!;
      for (let k = this.blockStart[p]!; k < this.blockStart[p + 1]!; k += 1) {
        block[order[this.later[k]!]!] = this.blockAt[k]!;
      }
      for (let k = start[own]!; k < start[own + 1]!; k += 1) {
        const entry = entries[k]!;
        const row = rowOf[entry]!;
        const weight = weights === undefined ? 1 : weights[row]!;
        const mine = coefficientOf[entry]!;
        for (let e = rowStart[row]!; e < rowStart[row + 1]!; e += 1) {
          const other = node[e]!;
          if (position[other]! < p) continue;
          const theirs = coefficientOf[e]!;
          let at = block[other]!;
          for (let i = 0; i < widths[other]!; i += 1) {
            const weighted = weight * coefficients[theirs + i]!;
            for (let j = 0; j < width; j += 1) {
              values[at]! += weighted * coefficients[mine + j]!;
              at += 1;
            }
          }
        }
      }
    }
  }

  /** ZᵀWZ·x for x by node. */
  times(x: Float64Array): Float64Array {
    const { scalarOf } = this.design;
    const { order } = this.elimination;
    const out = new Float64Array(x.length);
    for (let p = 0; p < order.length; p += 1) {
      const width = this.widths[p]!;
      const mine = scalarOf[order[p]!]!;
      let at = this.ownAt[p]!;
      for (let i = 0; i < width; i += 1) {
        for (let j = 0; j < width; j += 1, at += 1)
          out[mine + i]! += this.values[at]! * x[mine + j]!;
      }
      for (let k = this.blockStart[p]!; k < this.blockStart[p + 1]!; k += 1) {
        const other = this.later[k]!;
        const theirs = scalarOf[order[other]!]!;
        at = this.blockAt[k]!;
        if (width === 1 && this.widths[other] === 1) {
          const value = this.values[at]!;
          out[theirs]! += value * x[mine]!;
          out[mine]! += value * x[theirs]!;
          continue;
        }
        for (let i = 0; i < this.widths[other]!; i += 1) {
          for (let j = 0; j < width; j += 1, at += 1) {
            out[theirs + i]! += this.values[at]! * x[mine + j]!;
            out[mine + j]! += this.values[at]! * x[theirs + i]!;
          }
        }
      }
    }
    return out;
  }
}
