import { type Design, transposeTimes } from './design.ts';
import type { Problem } from './problem.ts';
import { SparseColumns } from './sparse-columns.ts';

/** Everything of the rows that does not change with θ, but for ZᵀWZ. */
export class NormalEquations {
  readonly x: SparseColumns;
  /** ZᵀWX, row-major, and ZᵀWy, both by node. */
  readonly zx: Float64Array;
  readonly zy: Float64Array;
  /** XᵀWX, row-major, and XᵀWy. */
  readonly xx: Float64Array;
  readonly xy: Float64Array;
  /** Σ ln w. */
  readonly lnWeights: number;

  /** @param x - the columns of X, where they are known from a former problem of the same design */
  constructor({ design, x: columns, y, weights }: Problem, x?: SparseColumns) {
    this.x = x ?? new SparseColumns(columns, y.length);
    const wy = weights === undefined ? y : y.map((value, row) => value * weights[row]!);
    this.zy = transposeTimes(design, wy);
    this.zx = crossed(design, this.x, weights);
    this.xx = this.x.crossProducts(weights);
    this.xy = this.x.transposeTimes(wy);
    let lnWeights = 0;
    if (weights !== undefined) for (const weight of weights) lnWeights += Math.log(weight);
    this.lnWeights = lnWeights;
  }
}

/** ZᵀWX, row-major. */
function crossed(
  { rows, nodes, widths, scalarOf, rowStart, node, coefficientOf, coefficients }: Design,
  x: SparseColumns,
  weights: Float64Array | undefined,
): Float64Array {
  const p = x.columns;
  const out = new Float64Array(scalarOf[nodes]! * p);
  for (let row = 0; row < rows; row += 1) {
    const weight = weights === undefined ? 1 : weights[row]!;
    for (let k = x.start[row]!; k < x.start[row + 1]!; k += 1) {
      const column = x.column[k]!;
      const weighted = x.value[k]! * weight;
      for (let e = rowStart[row]!; e < rowStart[row + 1]!; e += 1) {
        const name = node[e]!;
        const to = scalarOf[name]!;
        const from = coefficientOf[e]!;
        for (let t = 0; t < widths[name]!; t += 1) {
          out[(to + t) * p + column]! += coefficients[from + t]! * weighted;
        }
      }
    }
  }
  return out;
}
