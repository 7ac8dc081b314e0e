import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FrontVisitor, SparseCholesky } from '../../src/mixed/cholesky.ts';
import type { Graph } from '../../src/mixed/graph.ts';
import { smallCholesky, smallInverse, smallSolve } from '../../src/mixed/small-cholesky.ts';
import { eliminationOf } from '../../src/mixed/symbolic.ts';
import { seededBits, uniform } from '../../src/random.ts';
import { inverted, type Matrix, zeros } from './dense.ts';
import { crossing, graphOf, grid, nested, star } from './graphs.ts';

/** A graph whose nodes have widths, with a random positive definite matrix on its blocks. */
function sample(graph: Graph, widthOf: (node: number) => number, seed: number) {
  const bits = seededBits(seed);
  const elimination = eliminationOf(graph);
  const widths = elimination.order.map(widthOf);
  const cholesky = new SparseCholesky(elimination, widths);
  const { scalarOf, scalars } = cholesky;
  const a = zeros(scalars, scalars);
  for (let p = 0; p < graph.nodes; p += 1) {
    const node = elimination.order[p]!;
    const near = [...graph.neighbours.subarray(graph.start[node], graph.start[node + 1])];
    for (const q of [p, ...near.map((other) => elimination.position[other]!)]) {
      if (q < p) continue;
      for (let i = scalarOf[q]!; i < scalarOf[q + 1]!; i += 1) {
        for (let j = scalarOf[p]!; j < Math.min(i, scalarOf[p + 1]!); j += 1) {
          const value = 2 * uniform(bits) - 1;
          a[i]![j] = value;
          a[j]![i] = value;
        }
      }
    }
  }
  // Heavier than its row: positive definite, and well enough conditioned to compare to many digits.
  for (const [i, row] of a.entries()) {
    row[i] = 0.5 + row.reduce((sum, value) => sum + Math.abs(value), 0);
  }
  const assemble: FrontVisitor = (front, f, size, local) => {
    const positions = [...front.below];
    for (let p = front.from; p < front.to; p += 1) positions.push(p);
    for (let p = front.from; p < front.to; p += 1) {
      for (const q of positions.filter((other) => other >= p)) {
        for (let i = 0; i < widths[q]!; i += 1) {
          for (let j = 0; j < widths[p]!; j += 1) {
            if (q === p && j > i) continue;
            f[(local[q]! + i) * size + local[p]! + j]! += a[scalarOf[q]! + i]![scalarOf[p]! + j]!;
          }
        }
      }
    }
  };
  return { cholesky, widths, a, assemble, bits };
}

type Sample = ReturnType<typeof sample>;

function worstOfSolve({ cholesky, bits }: Sample, inverse: Matrix, sides: number): number {
  const rhs = Float64Array.from({ length: cholesky.scalars * sides }, () => uniform(bits));
  const x = rhs.slice();
  cholesky.solveLower(x, sides);
  cholesky.solveUpper(x, sides);
  let worst = 0;
  for (const [i, row] of inverse.entries()) {
    for (let r = 0; r < sides; r += 1) {
      const wanted = row.reduce((sum, value, k) => sum + value * rhs[k * sides + r]!, 0);
      worst = Math.max(worst, Math.abs(x[i * sides + r]! - wanted));
    }
  }
  return worst;
}

/** The largest difference, and how many entries of the inverse were shown. */
function worstOfInverse({ cholesky, widths }: Sample, inverse: Matrix) {
  const { scalarOf } = cholesky;
  const shown = zeros(widths.length, widths.length);
  let worst = 0;
  cholesky.inverse((front, s, size, local) => {
    const own = Array.from({ length: front.to - front.from }, (_, k) => front.from + k);
    for (const p of own) {
      for (const q of [...own, ...front.below]) {
        shown[q]![p]! += 1;
        for (let i = 0; i < widths[q]!; i += 1) {
          for (let j = 0; j < widths[p]!; j += 1) {
            const found = s[(local[q]! + i) * size + local[p]! + j]!;
            worst = Math.max(
              worst,
              Math.abs(found - inverse[scalarOf[q]! + i]![scalarOf[p]! + j]!),
            );
          }
        }
      }
    }
  });
  return { worst, shown };
}

function expectRight(made: Sample, graph: Graph): void {
  const { inverse, logDet } = inverted(made.a);
  const { cholesky, assemble } = made;
  // Twice: what the first run leaves in the work space must not be seen by the second.
  for (let run = 0; run < 2; run += 1) {
    const found = cholesky.factor(assemble);
    expect(Math.abs(found - logDet)).toBeLessThan(1e-12 * (1 + Math.abs(logDet)));
    expect(worstOfSolve(made, inverse, 1)).toBeLessThan(1e-12);
    expect(worstOfSolve(made, inverse, 3)).toBeLessThan(1e-12);
    const { worst, shown } = worstOfInverse(made, inverse);
    expect(worst).toBeLessThan(1e-12);
    const { order, position } = eliminationOf(graph);
    for (let p = 0; p < graph.nodes; p += 1) {
      expect(shown[p]![p]).toBe(1);
      const node = order[p]!;
      for (const other of graph.neighbours.subarray(graph.start[node], graph.start[node + 1])) {
        const q = position[other]!;
        if (q > p) expect(shown[q]![p]).toBe(1);
      }
    }
  }
}

const pairs = (nodes: number) =>
  fc.array(fc.tuple(fc.nat(nodes - 1), fc.nat(nodes - 1)), { maxLength: nodes * 2 });
const anyPattern = fc.integer({ min: 1, max: 24 }).chain((nodes) =>
  fc.record({
    graph: pairs(nodes).map((list) => graphOf(nodes, list)),
    widths: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: nodes, maxLength: nodes }),
    seed: fc.nat(1e9),
  }),
);

describe('sparse Cholesky', () => {
  it('has the determinant, solutions and inverse of a dense one, for any pattern and widths', () => {
    fc.assert(
      fc.property(anyPattern, ({ graph, widths, seed }) => {
        expectRight(
          sample(graph, (node) => widths[node]!, seed),
          graph,
        );
      }),
      { numRuns: 150 },
    );
  }, 60_000);

  it.each([
    ['no nodes at all', graphOf(0, [])],
    ['one node', graphOf(1, [])],
    ['a grid', grid(6, 7)],
    ['a star', star(30)],
    ['three levels of nesting', nested(3, 4, 3)],
    ['a crossing wider than a panel', crossing(20, 55)],
  ])('is right for %s', (_, graph) => {
    const made = sample(graph, (node) => 1 + (node % 2), 11);
    expectRight(made, graph);
  });

  it('says NaN for a matrix that is not positive definite or not finite', () => {
    for (const bad of [-1, 0, Number.NaN, Number.POSITIVE_INFINITY]) {
      const made = sample(star(12), () => 2, 5);
      made.a[13]![13] = bad;
      expect(made.cholesky.factor(made.assemble)).toBeNaN();
    }
  });
});

describe('small Cholesky', () => {
  it('solves, inverts and has the determinant', () => {
    const { a } = sample(crossing(5, 4), () => 2, 3);
    const size = a.length;
    const { inverse, logDet } = inverted(a);
    const factor = smallCholesky(Float64Array.from(a.flat()), size);
    if (typeof factor === 'number') throw new Error(`stopped at ${factor}`);
    expect(factor.logDet).toBeCloseTo(logDet, 10);
    const wanted = inverse.flat();
    smallInverse(factor).forEach((value, k) => expect(value).toBeCloseTo(wanted[k]!, 12));
    const unit = new Float64Array(size);
    unit[1] = 1;
    smallSolve(factor, unit).forEach((value, k) => expect(value).toBeCloseTo(inverse[k]![1]!, 12));
  });

  it('names the first row that is a combination of those before it', () => {
    // Rows 0 and 1 are independent; row 2 is their sum.
    const columns = [
      [1, 2, 3, 4],
      [1, -1, 1, -1],
      [2, 1, 4, 3],
    ];
    const gram = columns.flatMap((a) =>
      columns.map((b) => a.reduce((sum, value, k) => sum + value * b[k]!, 0)),
    );
    const scale = Float64Array.from(columns, (a) => a.reduce((sum, value) => sum + value ** 2, 0));
    expect(smallCholesky(Float64Array.from(gram), 3, scale)).toBe(2);
  });
});
