import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SparseCholesky } from '../../src/mixed/cholesky.ts';
import type { Graph } from '../../src/mixed/graph.ts';
import { fillReducingOrder } from '../../src/mixed/ordering.ts';
import { eliminationOf } from '../../src/mixed/symbolic.ts';
import { chain, crossing, graphOf, grid, nested, star } from './graphs.ts';

/** Entries below L's diagonal, by eliminating for real. */
function fillOf(graph: Graph, order: ArrayLike<number>): number {
  const near = Array.from(
    { length: graph.nodes },
    (_, node) => new Set(graph.neighbours.subarray(graph.start[node], graph.start[node + 1])),
  );
  let entries = 0;
  for (let at = 0; at < order.length; at += 1) {
    const node = order[at]!;
    const left = [...near[node]!];
    entries += left.length;
    for (const one of left) {
      near[one]!.delete(node);
      for (const two of left) if (one !== two) near[one]!.add(two);
    }
  }
  return entries;
}

const edges = (graph: Graph) => graph.neighbours.length / 2;
const isPermutation = (order: Int32Array, nodes: number) =>
  expect(
    order.length === nodes &&
      order
        .slice()
        .sort()
        .every((node, at) => node === at),
  ).toBe(true);

const anyGraph = fc.integer({ min: 0, max: 40 }).chain((nodes) =>
  fc
    .array(fc.tuple(fc.nat(Math.max(0, nodes - 1)), fc.nat(Math.max(0, nodes - 1))), {
      maxLength: nodes * 3,
    })
    .map((pairs) => graphOf(nodes, nodes === 0 ? [] : pairs)),
);

describe('the order of elimination', () => {
  it('is a permutation of the nodes of any graph', () => {
    fc.assert(
      fc.property(anyGraph, (graph) => {
        isPermutation(fillReducingOrder(graph), graph.nodes);
      }),
      { numRuns: 500 },
    );
  });

  it('does not change the graph, and is the same every time', () => {
    const graph = grid(7, 9);
    const before = graph.neighbours.slice();
    expect(fillReducingOrder(graph)).toEqual(fillReducingOrder(graph));
    expect(graph.neighbours).toEqual(before);
  });

  it.each([
    ['no nodes', graphOf(0, [])],
    ['nodes that meet nobody', graphOf(5, [])],
    ['a star', star(40)],
    ['a chain', chain(200)],
    ['three levels of nesting', nested(6, 5, 4)],
  ])('of %s fills nothing', (_, graph) => {
    expect(fillOf(graph, fillReducingOrder(graph))).toBe(edges(graph));
  });

  it('of a grid of 20 × 20 fills less than half of what it fills row by row', () => {
    const graph = grid(20, 20);
    const found = fillOf(graph, fillReducingOrder(graph));
    const natural = fillOf(
      graph,
      Int32Array.from({ length: 400 }, (_, node) => node),
    );
    expect(found).toBeLessThan(natural / 2);
  });

  it.each([
    [30, 7],
    [7, 30],
    [300, 40],
  ])('of a full crossing %d × %d fills only among the fewer', (many, few) => {
    const graph = crossing(many, few);
    const least = Math.min(many, few);
    expect(fillOf(graph, fillReducingOrder(graph))).toBe(edges(graph) + (least * (least - 1)) / 2);
  });

  it('puts a node that everything meets last, though chains hang together without it', () => {
    const nodes = 2000;
    const pairs = [...pairsOf(chain(nodes - 1)), ...range(nodes - 1).map((n) => [n, nodes - 1])];
    const graph = graphOf(nodes, pairs as [number, number][]);
    const order = fillReducingOrder(graph);
    expect(order.at(-1)).toBe(nodes - 1);
    expect(fillOf(graph, order)).toBe(edges(graph));
  });
});

const range = (length: number) => Array.from({ length }, (_, index) => index);
function pairsOf({ nodes, start, neighbours }: Graph): [number, number][] {
  return range(nodes).flatMap((node) =>
    [...neighbours.subarray(start[node], start[node + 1])].map((other): [number, number] => [
      node,
      other,
    ]),
  );
}

describe('100,000 levels', () => {
  const ones = (nodes: number) => new Int32Array(nodes).fill(1);
  // Multiplications of a factorisation, and processor time: an order that looks at all nodes for each would look
  // 10¹⁰ times, more than the limit allows on any machine (measured: 0.4 to 1.8 s).
  it.each([
    ['in one group beside a node that meets them all', star(100_000), 20],
    ['nested in 300', nested(300, 333, 0), 20],
    ['nested in 20,000, nested in 500', nested(500, 40, 5), 20],
    ['in a chain', chain(100_000), 20],
  ])(
    '%s are ordered without a quadratic blow-up',
    (_, graph, each) => {
      const began = process.cpuUsage();
      const elimination = eliminationOf(graph);
      const spent = process.cpuUsage(began).user / 1e6;
      isPermutation(elimination.order, graph.nodes);
      expect(new SparseCholesky(elimination, ones(graph.nodes)).work).toBeLessThan(
        each * graph.nodes,
      );
      expect(spent).toBeLessThan(10);
    },
    120_000,
  );

  it('crossed with 50 cost what the 50 cost, times the levels', () => {
    const graph = crossing(100_000, 50, 3);
    const began = process.cpuUsage();
    const { work } = new SparseCholesky(eliminationOf(graph), ones(graph.nodes));
    expect(work).toBeLessThan(100_000 * 4 ** 3 + 50 ** 3);
    expect(process.cpuUsage(began).user / 1e6).toBeLessThan(10);
  }, 120_000);
});
