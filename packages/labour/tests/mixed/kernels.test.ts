import { describe, expect, it } from 'vitest';
import {
  factorFront,
  inverseTransposed,
  outerOfUpper,
  rowDot,
  subtractRowProducts,
} from '../../src/mixed/kernels.ts';
import { seededBits, uniform } from '../../src/random.ts';

// Around the tile (3) and the panel (48), and nothing at all.
const SIZES = [0, 1, 2, 3, 4, 47, 48, 49, 100];
const bits = seededBits(48);
const random = (length: number) => Float64Array.from({ length }, () => 2 * uniform(bits) - 1);

/** A random lower triangle with a heavy diagonal, in rows of `ld`; what lies above is left as noise. */
function lowerTriangle(size: number, ld: number): Float64Array {
  const l = random(size * ld);
  for (let i = 0; i < size; i += 1) l[i * ld + i] = 2 + uniform(bits);
  for (let i = 0; i < size; i += 1) for (let j = 0; j < i; j += 1) l[i * ld + j]! /= 8;
  return l;
}

function expectClose(found: ArrayLike<number>, wanted: ArrayLike<number>, scale = 1): void {
  let worst = 0;
  for (let i = 0; i < wanted.length; i += 1) {
    worst = Math.max(worst, Math.abs(found[i]! - wanted[i]!));
  }
  expect(found.length).toBe(wanted.length);
  expect(worst).toBeLessThan(1e-13 * scale);
}

describe('row products', () => {
  const shapes = SIZES.flatMap((m) => SIZES.map((n) => [m, n, SIZES[(m + n) % SIZES.length]!]));

  it.each(shapes)('%d × %d over %d are those of three loops', (m, n, k) => {
    for (const lower of [false, true]) {
      const [lda, ldb, ldc] = [k + 2, k + 1, n + 3];
      const a = random(5 + m * lda);
      const b = random(2 + n * ldb);
      const c = random(7 + m * ldc);
      const wanted = c.slice();
      for (let i = 0; i < m; i += 1) {
        for (let j = 0; j < n; j += 1) {
          for (let l = 0; l < k; l += 1) {
            wanted[7 + i * ldc + j]! -= a[5 + i * lda + l]! * b[2 + j * ldb + l]!;
          }
        }
      }
      subtractRowProducts(c, 7, ldc, a, 5, lda, b, 2, ldb, m, n, k, lower);
      // With `lower`, what a tile above the diagonal holds is nobody's business.
      for (let i = 0; i < m && lower; i += 1) {
        for (let j = i + 1; j < n; j += 1) c[7 + i * ldc + j] = wanted[7 + i * ldc + j]!;
      }
      expectClose(c, wanted, k + 1);
    }
  });

  it('of no rows, columns or terms change nothing', () => {
    for (const [m, n, k] of [
      [0, 5, 5],
      [5, 0, 5],
      [5, 5, 0],
    ] as const) {
      const c = random(25);
      const before = c.slice();
      subtractRowProducts(c, 0, 5, random(25), 0, 5, random(25), 0, 5, m, n, k, false);
      expect(c).toEqual(before);
    }
  });

  it('a dot product starts where it is told', () => {
    const [a, b] = [Float64Array.of(9, 1, 2, 3), Float64Array.of(9, 9, 4, 5, 6)];
    expect(rowDot(a, 1, b, 2, 3)).toBe(32);
    expect(rowDot(a, 1, b, 2, 0)).toBe(0);
  });
});

describe.each(SIZES)('a front of %d', (m) => {
  const l = lowerTriangle(m, m);
  const a = new Float64Array(m * m);
  for (let i = 0; i < m; i += 1) {
    for (let j = 0; j <= i; j += 1) a[i * m + j] = rowDot(l, i * m, l, j * m, j + 1);
  }
  const lowerOf = (f: Float64Array) => f.filter((_, at) => at % m <= Math.floor(at / m));

  it.each([0, 1, 47, 48, 49, m].filter((columns) => columns <= m))(
    'factored for %d columns has L before them and what is left behind them',
    (columns) => {
      const f = a.slice();
      expect(factorFront(f, m, columns, 0)).toBe(-1);
      const wanted = l.slice();
      for (let i = columns; i < m; i += 1) {
        for (let j = columns; j <= i; j += 1) {
          wanted[i * m + j] = a[i * m + j]! - rowDot(l, i * m, l, j * m, columns);
        }
      }
      expectClose(lowerOf(f), lowerOf(wanted), m + 10);
    },
  );

  it.each([0, 46, 48, m - 1].filter((at) => at >= 0 && at < m))(
    'that is not positive at column %d says so',
    (at) => {
      const f = a.slice();
      f[at * m + at] = rowDot(l, at * m, l, at * m, at) - 1e-3;
      expect(factorFront(f, m, m, 0)).toBe(at);
      f.set(a);
      f[at * m + at] = Number.NaN;
      expect(factorFront(f, m, m, 0)).toBe(at);
    },
  );

  it('has L⁻ᵀ and its products with itself', () => {
    const ld = m + 4;
    const wide = lowerTriangle(m, ld);
    const n = random(m * m);
    inverseTransposed(wide, 0, ld, m, n);
    // Row i of N times row k of L: the unit matrix.
    const unit = new Float64Array(m * m);
    const product = new Float64Array(m * m);
    for (let i = 0; i < m; i += 1) {
      unit[i * m + i] = 1;
      for (let k = 0; k < m; k += 1) product[i * m + k] = rowDot(n, i * m, wide, k * ld, k + 1);
    }
    expectClose(product, unit, m + 1);
    for (let i = 0; i < m; i += 1) for (let j = 0; j < i; j += 1) expect(n[i * m + j]).toBe(0);

    const s = random(m * ld);
    const wanted = s.slice();
    for (let i = 0; i < m; i += 1) {
      for (let j = 0; j < m; j += 1) wanted[i * ld + j] = rowDot(n, i * m, n, j * m, m);
    }
    outerOfUpper(n, m, s, ld);
    expectClose(s, wanted, m + 1);
  });
});
