/** Dense Cholesky for matrices of a few dozen rows, row-major. */
export type SmallCholesky = {
  readonly size: number;
  readonly l: Float64Array;
  readonly logDet: number;
};

/** Below this share of its own scale a pivot is rounding: the column is a combination of those before it. */
export const SINGULAR = 1e-11;

/** @returns the factor, or the first row that is a combination of those before it (pivot ≤ SINGULAR × scale) */
export function smallCholesky(
  a: Float64Array,
  size: number,
  scale?: Float64Array,
): SmallCholesky | number {
  const l = a.slice();
  let logDet = 0;
  for (let j = 0; j < size; j += 1) {
    let pivot = l[j * size + j]!;
    for (let k = 0; k < j; k += 1) pivot -= l[j * size + k]! ** 2;
    if (!(pivot > SINGULAR * (scale?.[j] ?? 0))) return j;
    const root = Math.sqrt(pivot);
    l[j * size + j] = root;
    logDet += 2 * Math.log(root);
    for (let i = j + 1; i < size; i += 1) {
      let value = l[i * size + j]!;
      for (let k = 0; k < j; k += 1) value -= l[i * size + k]! * l[j * size + k]!;
      l[i * size + j] = value / root;
    }
  }
  return { size, l, logDet };
}

/** x ← A⁻¹x. */
export function smallSolve({ size, l }: SmallCholesky, x: Float64Array): Float64Array {
  for (let i = 0; i < size; i += 1) {
    for (let k = 0; k < i; k += 1) x[i]! -= l[i * size + k]! * x[k]!;
    x[i]! /= l[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i -= 1) {
    for (let k = i + 1; k < size; k += 1) x[i]! -= l[k * size + i]! * x[k]!;
    x[i]! /= l[i * size + i]!;
  }
  return x;
}

export function smallInverse(factor: SmallCholesky): Float64Array {
  const { size } = factor;
  const inverse = new Float64Array(size * size);
  for (let j = 0; j < size; j += 1) {
    const column = new Float64Array(size);
    column[j] = 1;
    smallSolve(factor, column);
    for (let i = 0; i < size; i += 1) inverse[i * size + j] = column[i]!;
  }
  return inverse;
}
