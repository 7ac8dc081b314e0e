import type { Graph } from '../../src/mixed/graph.ts';

/** A graph from pairs of nodes; pairs that repeat, or join a node to itself, say nothing more. */
export function graphOf(nodes: number, pairs: Iterable<readonly [number, number]>): Graph {
  const near = Array.from({ length: nodes }, () => new Set<number>());
  for (const [one, two] of pairs) {
    if (one === two) continue;
    near[one]!.add(two);
    near[two]!.add(one);
  }
  const start = new Int32Array(nodes + 1);
  for (const [node, others] of near.entries()) start[node + 1] = start[node]! + others.size;
  const neighbours = new Int32Array(start[nodes]!);
  for (const [node, others] of near.entries()) neighbours.set([...others], start[node]);
  return { nodes, start, neighbours };
}

function* generated(
  count: number,
  pair: (index: number) => readonly [number, number] | undefined,
): Generator<readonly [number, number]> {
  for (let index = 0; index < count; index += 1) {
    const made = pair(index);
    if (made !== undefined) yield made;
  }
}

/** Node 0 in the middle. */
export const star = (nodes: number) =>
  graphOf(
    nodes,
    generated(nodes - 1, (k) => [0, k + 1]),
  );

export const chain = (nodes: number) =>
  graphOf(
    nodes,
    generated(nodes - 1, (k) => [k, k + 1]),
  );

export const grid = (rows: number, columns: number) =>
  graphOf(rows * columns, [
    ...generated(rows * columns, (k) => ((k + 1) % columns === 0 ? undefined : [k, k + 1])),
    ...generated((rows - 1) * columns, (k) => [k, k + columns]),
  ]);

/** `tops` nodes, `middles` in each, `leaves` in each of those; a node meets all that it lies in. */
export function nested(tops: number, middles: number, leaves: number): Graph {
  const firstLeaf = tops + tops * middles;
  return graphOf(firstLeaf + tops * middles * leaves, [
    ...generated(tops * middles, (k) => [tops + k, Math.floor(k / middles)]),
    ...generated(tops * middles * leaves, (k) => [firstLeaf + k, tops + Math.floor(k / leaves)]),
    ...generated(tops * middles * leaves, (k) => [
      firstLeaf + k,
      Math.floor(k / (leaves * middles)),
    ]),
  ]);
}

/** Two groups: each of `many` meets each of `few`, or `meets` of them that depend on its number. */
export function crossing(many: number, few: number, meets = few): Graph {
  return graphOf(
    many + few,
    generated(many * meets, (k) => {
      const one = Math.floor(k / meets);
      const other = meets === few ? k % meets : (one * 7 + (k % meets) * (1 + (one % 13))) % few;
      return [one, many + other];
    }),
  );
}
