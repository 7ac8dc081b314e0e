import type { Graph } from './graph.ts';
import { fillReducingOrder } from './ordering.ts';

/** One supernode: nodes that follow each other in the order and whose columns of L have the same rows below. */
export type Front = {
  /** Positions in the order of its own nodes: from, up to but not including. */
  readonly from: number;
  readonly to: number;
  /** Positions of the nodes below, ascending. */
  readonly below: Int32Array;
  /** The front that holds the first node below; −1 for a root. */
  readonly parent: number;
};

/** What a factorisation needs to know before it sees a number. */
export type Elimination = {
  /** Node at each position. */
  readonly order: Int32Array;
  /** Position of each node. */
  readonly position: Int32Array;
  /** In an order in which children come before their parents, each subtree together. */
  readonly fronts: readonly Front[];
};

/** Neighbours by position, lower ones only: what an elimination tree is made from. */
function parentsOf(graph: Graph, order: Int32Array, position: Int32Array): Int32Array {
  const parent = new Int32Array(graph.nodes).fill(-1);
  const ancestor = new Int32Array(graph.nodes).fill(-1);
  for (let at = 0; at < graph.nodes; at += 1) {
    const node = order[at]!;
    for (let k = graph.start[node]!; k < graph.start[node + 1]!; k += 1) {
      let below = position[graph.neighbours[k]!]!;
      // Up the path to the root, shortened as it is walked (Liu 1990, SIAM J. Matrix Anal. Appl. 11(1)).
      while (below < at && ancestor[below] !== at) {
        const next = ancestor[below]!;
        ancestor[below] = at;
        if (next < 0) {
          parent[below] = at;
          break;
        }
        below = next;
      }
    }
  }
  return parent;
}

/** Positions in an order that keeps each subtree together and children before parents. */
function postorder(parent: Int32Array): Int32Array {
  const nodes = parent.length;
  const firstChild = new Int32Array(nodes + 1).fill(-1);
  const nextChild = new Int32Array(nodes).fill(-1);
  for (let node = nodes - 1; node >= 0; node -= 1) {
    const above = parent[node]! < 0 ? nodes : parent[node]!;
    nextChild[node] = firstChild[above]!;
    firstChild[above] = node;
  }
  const order = new Int32Array(nodes);
  const path: number[] = [];
  let placed = 0;
  for (let root = firstChild[nodes]!; root >= 0; root = nextChild[root]!) {
    path.push(root);
    while (path.length > 0) {
      const node = path.at(-1)!;
      const child = firstChild[node]!;
      if (child >= 0) {
        firstChild[node] = nextChild[child]!;
        path.push(child);
      } else {
        path.pop();
        order[placed] = node;
        placed += 1;
      }
    }
  }
  return order;
}

/** A child joins its parent while the zeros that this stores stay below this share of the child's columns. */
const ZEROS_WORTH_IT = 0.25;

type Growing = { from: number; to: number; below: Int32Array };

/** Whether the last child may be stored as part of its parent, at the price of some zeros. */
function worthJoining(child: Growing, parent: Growing): boolean {
  const rows = parent.to - parent.from + parent.below.length;
  return rows - child.below.length <= ZEROS_WORTH_IT * rows;
}

/** Nodes by how many they meet, fewest first: once the small groups are gone, all that is left fills alike. */
function byDegree({ nodes, start }: Graph): Int32Array {
  const degree = (node: number) => start[node + 1]! - start[node]!;
  return Int32Array.from({ length: nodes }, (_, node) => node).sort(
    (one, other) => degree(one) - degree(other) || one - other,
  );
}

/**
 * Symbolic factorisation: ordering, elimination tree, and fronts.
 *
 * Nodes count alike whatever their width. Columns with the same rows below them are one front; a child that
 * comes right before its parent joins it when few zeros are stored by that.
 *
 * Of two orders the one with less work: approximate degrees all grow to the same bound where everything meets everything,
 * and then say no more than the number of nodes that each one met at first.
 */
export function eliminationOf(graph: Graph): Elimination {
  const [least, work] = analysed(graph, fillReducingOrder(graph), Infinity)!;
  return analysed(graph, byDegree(graph), work)?.[0] ?? least;
}

/** Tree and fronts for an order, with its work; undefined as soon as that reaches the limit. */
function analysed(
  graph: Graph,
  first: Int32Array,
  limit: number,
): readonly [Elimination, work: number] | undefined {
  let work = 0;
  const place = new Int32Array(graph.nodes);
  first.forEach((node, at) => {
    place[node] = at;
  });
  const tree = parentsOf(graph, first, place);
  const post = postorder(tree);
  const order = post.map((at) => first[at]!);
  const position = new Int32Array(graph.nodes);
  order.forEach((node, at) => {
    position[node] = at;
  });

  const rows: (Int32Array | undefined)[] = [];
  const children: number[][] = Array.from({ length: graph.nodes }, () => []);
  const mark = new Int32Array(graph.nodes).fill(-1);
  const growing: Growing[] = [];
  for (let at = 0; at < graph.nodes; at += 1) {
    const node = order[at]!;
    const found: number[] = [];
    mark[at] = at;
    const take = (row: number) => {
      if (row > at && mark[row] !== at) {
        mark[row] = at;
        found.push(row);
      }
    };
    for (let k = graph.start[node]!; k < graph.start[node + 1]!; k += 1) {
      take(position[graph.neighbours[k]!]!);
    }
    for (const child of children[at]!) {
      for (const row of rows[child]!) take(row);
      rows[child] = undefined; // said by its parent from now on
    }
    work += (found.length + 1) ** 2;
    if (work >= limit) return undefined;
    const below = Int32Array.from(found).sort();
    rows.push(below);
    if (below.length > 0) children[below[0]!]!.push(at);
    const last = growing.at(-1);
    if (last?.below[0] === at && last.below.length === below.length + 1) {
      last.to = at + 1;
      last.below = below;
    } else {
      growing.push({ from: at, to: at + 1, below });
    }
  }

  const joined: Growing[] = [];
  for (const front of growing) {
    let last = joined.at(-1);
    // A child right before this front whose parent lies in it: its rows are all rows of this front.
    while (last?.to === front.from && (last.below[0] ?? front.to) < front.to) {
      if (!worthJoining(last, front)) break;
      front.from = last.from;
      joined.pop();
      last = joined.at(-1);
    }
    joined.push(front);
  }
  const holder = new Int32Array(graph.nodes);
  joined.forEach(({ from, to }, index) => holder.fill(index, from, to));
  const elimination = {
    order,
    position,
    fronts: joined.map(({ from, to, below }) => ({
      from,
      to,
      below,
      parent: below.length === 0 ? -1 : holder[below[0]!]!,
    })),
  };
  return [elimination, work];
}
