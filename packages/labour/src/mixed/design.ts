import type { Graph } from './graph.ts';

/**
 * The random-effects design Z, by rows: which nodes (levels of groups) each row belongs to, and with which
 * coefficients. A node of a group with slopes has one coefficient a term; a row that several members of a group
 * share has an entry for each. Nodes of all groups are numbered through.
 */
export type Design = {
  readonly rows: number;
  readonly nodes: number;
  /** Terms of each node. */
  readonly widths: Int32Array;
  /** First scalar of each node, and behind the last the number of scalars. */
  readonly scalarOf: Int32Array;
  /** Entries of row r: from rowStart[r] up to rowStart[r + 1]. */
  readonly rowStart: Int32Array;
  readonly node: Int32Array;
  /** First coefficient of each entry; it has as many as its node has terms. */
  readonly coefficientOf: Int32Array;
  readonly coefficients: Float64Array;
};

/** Entries by node: which entries name it, and the row of each entry. */
export type ByNode = {
  readonly start: Int32Array;
  readonly entries: Int32Array;
  readonly rowOf: Int32Array;
};

export function entriesByNode({ rows, nodes, rowStart, node }: Design): ByNode {
  const start = new Int32Array(nodes + 1);
  for (const name of node) start[name + 1]! += 1;
  for (let n = 0; n < nodes; n += 1) start[n + 1]! += start[n]!;
  const next = start.slice(0, nodes);
  const entries = new Int32Array(node.length);
  const rowOf = new Int32Array(node.length);
  for (let row = 0; row < rows; row += 1) {
    for (let e = rowStart[row]!; e < rowStart[row + 1]!; e += 1) {
      rowOf[e] = row;
      const name = node[e]!;
      entries[next[name]!] = e;
      next[name]! += 1;
    }
  }
  return { start, entries, rowOf };
}

/** Which nodes meet in a row: the pattern of ZᵀZ. */
export function meetings(design: Design, byNode: ByNode): Graph {
  const { nodes, rowStart, node } = design;
  const start = new Int32Array(nodes + 1);
  const found: number[] = [];
  const seen = new Int32Array(nodes).fill(-1);
  for (let n = 0; n < nodes; n += 1) {
    seen[n] = n;
    for (let k = byNode.start[n]!; k < byNode.start[n + 1]!; k += 1) {
      const row = byNode.rowOf[byNode.entries[k]!]!;
      for (let e = rowStart[row]!; e < rowStart[row + 1]!; e += 1) {
        const other = node[e]!;
        if (seen[other] === n) continue;
        seen[other] = n;
        found.push(other);
      }
    }
    start[n + 1] = found.length;
  }
  return { nodes, start, neighbours: Int32Array.from(found) };
}

/** out ← out + scale·Z·b, a row each. */
export function addTimes(design: Design, b: Float64Array, scale: number, out: Float64Array): void {
  const { rows, widths, scalarOf, rowStart, node, coefficientOf, coefficients } = design;
  for (let row = 0; row < rows; row += 1) {
    let sum = 0;
    for (let e = rowStart[row]!; e < rowStart[row + 1]!; e += 1) {
      const name = node[e]!;
      const from = scalarOf[name]!;
      const at = coefficientOf[e]!;
      for (let t = 0; t < widths[name]!; t += 1) sum += coefficients[at + t]! * b[from + t]!;
    }
    out[row]! += scale * sum;
  }
}

/** Zᵀ·v, a scalar each. */
export function transposeTimes(design: Design, v: Float64Array): Float64Array {
  const { rows, widths, scalarOf, rowStart, node, coefficientOf, coefficients } = design;
  const out = new Float64Array(scalarOf[design.nodes]!);
  for (let row = 0; row < rows; row += 1) {
    const value = v[row]!;
    for (let e = rowStart[row]!; e < rowStart[row + 1]!; e += 1) {
      const name = node[e]!;
      const from = scalarOf[name]!;
      const at = coefficientOf[e]!;
      for (let t = 0; t < widths[name]!; t += 1) out[from + t]! += coefficients[at + t]! * value;
    }
  }
  return out;
}
