/** Products with the block of two nodes, in place; most blocks are one number. */

/** f += Λ_rowsᵀ·B·Λ_columns for one block B (row-major, rows × columns). */
export function addCongruent(
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
export function addTraces(
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
