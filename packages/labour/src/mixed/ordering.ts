import type { Graph } from './graph.ts';

/** Nodes with more neighbours than this times √n are put last unseen: one such row would slow every step. */
const DENSE = 10;
const FEWEST_DENSE = 16;

/** Nodes in a doubly linked list for each degree, so that one of the smallest is found at once. */
class DegreeLists {
  readonly #head: Int32Array;
  readonly #next: Int32Array;
  readonly #previous: Int32Array;
  readonly #degree: Int32Array;
  #least = 0;

  constructor(nodes: number) {
    this.#head = new Int32Array(nodes + 1).fill(-1);
    this.#next = new Int32Array(nodes).fill(-1);
    this.#previous = new Int32Array(nodes).fill(-1);
    this.#degree = new Int32Array(nodes).fill(-1);
  }

  put(node: number, degree: number): void {
    if (this.#degree[node]! >= 0) this.remove(node);
    const head = this.#head[degree]!;
    this.#degree[node] = degree;
    this.#next[node] = head;
    this.#previous[node] = -1;
    if (head >= 0) this.#previous[head] = node;
    this.#head[degree] = node;
    if (degree < this.#least) this.#least = degree;
  }

  remove(node: number): void {
    const degree = this.#degree[node]!;
    const next = this.#next[node]!;
    const previous = this.#previous[node]!;
    if (next >= 0) this.#previous[next] = previous;
    if (previous >= 0) this.#next[previous] = next;
    else this.#head[degree] = next;
    this.#degree[node] = -1;
  }

  degreeOf(node: number): number {
    return this.#degree[node]!;
  }

  takeLeast(): number {
    while (this.#head[this.#least]! < 0) this.#least += 1;
    const node = this.#head[this.#least]!;
    this.remove(node);
    return node;
  }
}

/**
 * Fill-reducing ordering: the order in which to eliminate the nodes of a symmetric matrix's graph so that its
 * Cholesky factor stays sparse.
 *
 * Minimum degree on the quotient graph: an eliminated node becomes an element that stands for the clique of its
 * neighbours and swallows the elements it touches. Degrees are the upper bound of Amestoy, Davis & Duff
 * (1996, SIAM J. Matrix Anal. Appl. 17(4), their equation for d̄): what a node sees through each element, counted
 * without what the newest element already covers. When the rest is a clique every order is as good.
 *
 * @returns the nodes, first eliminated first
 * @example
 * // A star: its middle (0) comes after all but one of its points.
 * fillReducingOrder({ nodes: 3, start: Int32Array.of(0, 2, 3, 4), neighbours: Int32Array.of(1, 2, 0, 0) })
 */
export function fillReducingOrder({ nodes, start, neighbours }: Graph): Int32Array {
  const tooDense = Math.max(FEWEST_DENSE, DENSE * Math.sqrt(nodes));
  const isDense = (node: number) => start[node + 1]! - start[node]! > tooDense;
  const order: number[] = [];
  const dense: number[] = [];
  const lists = new DegreeLists(nodes);
  /** Neighbours not yet covered by an element; empty once the node is an element itself. */
  const direct: (Int32Array | number[])[] = [];
  /** Elements that a node touches. */
  const touched: number[][] = [];
  /** The nodes of an element; undefined when swallowed. */
  const clique: (number[] | undefined)[] = [];
  const done = new Uint8Array(nodes);
  for (let node = 0; node < nodes; node += 1) {
    clique.push(undefined);
    touched.push([]);
    if (isDense(node)) {
      dense.push(node);
      done[node] = 1;
      direct.push([]);
      continue;
    }
    const own = neighbours
      .subarray(start[node], start[node + 1])
      .filter((other) => !isDense(other));
    direct.push(own);
  }
  const ordered = nodes - dense.length;
  for (let node = 0; node < nodes; node += 1) {
    if (done[node] === 0) lists.put(node, direct[node]!.length);
  }

  const inNew = new Int32Array(nodes).fill(-1);
  const seen = new Int32Array(nodes).fill(-1);
  const outside = new Int32Array(nodes);
  while (order.length < ordered) {
    const pivot = lists.takeLeast();
    const step = order.push(pivot);
    done[pivot] = 1;
    inNew[pivot] = step;
    const members: number[] = [];
    const cover = (list: Iterable<number>) => {
      for (const node of list) {
        if (done[node] === 1 || inNew[node] === step) continue;
        inNew[node] = step;
        members.push(node);
      }
    };
    cover(direct[pivot]!);
    for (const element of touched[pivot]!) {
      cover(clique[element]!);
      clique[element] = undefined;
    }
    direct[pivot] = [];
    touched[pivot] = [];
    if (members.length === ordered - order.length) {
      // All that is left is one clique: every order fills it alike.
      order.push(...members.sort((a, b) => a - b));
      break;
    }
    clique[pivot] = members;

    // For each element met from here: how many of its nodes lie outside the new one.
    for (const node of members) {
      const kept: number[] = [];
      for (const element of touched[node]!) {
        const nodesOf = clique[element];
        if (nodesOf === undefined) continue;
        kept.push(element);
        if (seen[element] !== step) {
          seen[element] = step;
          outside[element] = nodesOf.length; // none of them is eliminated: that would have swallowed it
        }
        outside[element]! -= 1;
      }
      touched[node] = kept;
    }
    const left = ordered - order.length;
    for (const node of members) {
      const own = direct[node]!.filter((other) => done[other] === 0 && inNew[other] !== step);
      direct[node] = own;
      let degree = members.length - 1 + own.length;
      const kept = [pivot];
      for (const element of touched[node]!) {
        // An element that lies wholly inside the new one says nothing more.
        if (outside[element] === 0) continue;
        kept.push(element);
        degree += outside[element]!;
      }
      touched[node] = kept;
      lists.put(node, Math.min(degree, left - 1, lists.degreeOf(node) + members.length - 1));
    }
  }
  return Int32Array.from([...order, ...dense]);
}
