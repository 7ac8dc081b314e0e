/**
 * An undirected graph in compressed form: the neighbours of node i are `neighbours` from `start[i]` up to
 * `start[i + 1]`, each edge listed at both ends, no node its own neighbour.
 */
export type Graph = {
  readonly nodes: number;
  readonly start: Int32Array;
  readonly neighbours: Int32Array;
};
