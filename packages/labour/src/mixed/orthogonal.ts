import { CollinearError } from './criterion.ts';

/** Below this share of its own length what a column adds to those before it is rounding. */
const NOTHING_NEW = 1e-11;

/** X = Q·R: columns of Q as long as a column of ones and at right angles, R upper-triangular, row-major. */
export type Orthogonal = { readonly q: readonly Float64Array[]; readonly r: Float64Array };

/**
 * Gram–Schmidt, each column twice, which leaves the columns at right angles to rounding whatever their condition
 * (Giraud, Langou & Rozložník 2005, Comput. Math. Appl. 50). Cross-products of Q then lose no digits, where those of X
 * would lose twice as many as X has to lose.
 *
 * @throws CollinearError for a column that is a combination of those before it
 */
export function orthogonal(
  x: readonly Float64Array[],
  names: readonly string[],
  weights: Float64Array | undefined,
): Orthogonal {
  const p = x.length;
  const rows = x[0]?.length ?? 0;
  const inner = (a: Float64Array, b: Float64Array) => {
    let sum = 0;
    for (let row = 0; row < rows; row += 1) {
      sum += a[row]! * b[row]! * (weights === undefined ? 1 : weights[row]!);
    }
    return sum / rows;
  };
  const q: Float64Array[] = [];
  const r = new Float64Array(p * p);
  for (const [j, column] of x.entries()) {
    const left = column.slice();
    const before = Math.sqrt(inner(left, left));
    for (let pass = 0; pass < 2; pass += 1) {
      for (const [i, other] of q.entries()) {
        const share = inner(left, other);
        r[i * p + j]! += share;
        for (let row = 0; row < rows; row += 1) left[row]! -= share * other[row]!;
      }
    }
    const length = Math.sqrt(inner(left, left));
    if (!(length > NOTHING_NEW * before)) throw new CollinearError(names[j]!);
    r[j * p + j] = length;
    q.push(left.map((value) => value / length));
  }
  return { q, r };
}

/** B·R⁻¹ for a square matrix B and an upper-triangular R, row-major. */
export function overUpper(b: Float64Array, r: Float64Array): Float64Array {
  const size = Math.sqrt(b.length);
  const out = b.slice();
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) {
      for (let k = 0; k < j; k += 1) out[i * size + j]! -= out[i * size + k]! * r[k * size + j]!;
      out[i * size + j]! /= r[j * size + j]!;
    }
  }
  return out;
}
