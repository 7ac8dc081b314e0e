import type { SharedUncertainty } from './access-doubt.ts';
import type { Hours } from './hours.ts';
import { type Bits, gamma, seededBits, standardNormal } from './random.ts';
import { sampleQuantile } from './sample-quantile.ts';
import type { Predictive } from './student.ts';

/** What the sum needs to know of an item; an estimate is one. */
export type PackageItem = {
  readonly predictive: Predictive;
  readonly mean: number;
  readonly p80: number;
  readonly shared?: readonly SharedUncertainty[] | undefined;
};

export type SimulationOptions = {
  /** A whole number from 0 to 2⁵³ − 1; the same seed gives the same digits. */
  readonly seed: number;
  /** Sums drawn, 1 to 1,000,000. */
  readonly draws?: number | undefined;
};

/** How long a package of items will take together. */
export type PackageEstimate = {
  readonly p10: Hours;
  readonly p50: Hours;
  /** The sum of the items' plug-in means: the predictive itself has no mean to average. */
  readonly mean: Hours;
  readonly p80: Hours;
  readonly p90: Hours;
  /** What adding up the items' P80s gives: for comparison, not a P80 of anything. */
  readonly sumOfP80: Hours;
};

/** Mixing factors √(ν/χ²) of a Student-t; a power of two, so that a few bits choose one. */
const POOL = 8192;
const POOL_SHIFT = 19;

function mixingPool(df: number, bits: Bits): Float64Array | undefined {
  if (df === Infinity) return undefined;
  return Float64Array.from({ length: POOL }, () => Math.sqrt(df / (2 * gamma(df / 2, bits))));
}

/** A plain loop: `Float64Array.from` with a function takes ten times as long. */
function standardNormals(length: number, bits: Bits): Float64Array {
  const values = new Float64Array(length);
  for (let i = 0; i < length; i += 1) values[i] = standardNormal(bits);
  return values;
}

/** The scale of what is an item's own, after what it shares. */
function ownScale(item: PackageItem, loadings: readonly SharedUncertainty[]): number {
  const { location, scale, df } = item.predictive;
  if (!(item.mean > 0 && item.p80 > 0)) {
    throw new RangeError(
      `An item needs a mean and a P80 above 0 hours; got ${item.mean} and ${item.p80}.`,
    );
  }
  if (!Number.isFinite(location) || !(scale >= 0 && scale < Infinity) || !(df > 0)) {
    throw new RangeError(
      `An item needs a finite location, a scale of 0 or more and df above 0; got ${location}, ${scale}, ${df}.`,
    );
  }
  const common = loadings.reduce((sum, { loading }) => sum + loading ** 2, 0);
  if (!(common <= scale ** 2 * (1 + 1e-9))) {
    throw new RangeError(
      `What an item shares cannot be wider than the item: its squared scale is ${scale ** 2}, the shared parts make ${common}.`,
    );
  }
  return Math.sqrt(Math.max(0, scale ** 2 - common));
}

/** Components that at least two items load on; the rest is as good as an item's own. */
function commonComponents(items: readonly PackageItem[]): Set<string> {
  const users = new Map<string, number>();
  for (const { shared = [] } of items) {
    for (const component of new Set(shared.map((part) => part.component))) {
      users.set(component, (users.get(component) ?? 0) + 1);
    }
  }
  return new Set([...users].filter(([, number]) => number > 1).map(([component]) => component));
}

function checkedDraws(draws: number): number {
  if (!Number.isInteger(draws) || draws < 1 || draws > 1_000_000) {
    throw new RangeError(`Draws must be a whole number from 1 to 1000000; got ${draws}.`);
  }
  return draws;
}

/**
 * Simulated sums: draws of the hours of all items together, unsorted.
 *
 *     ln hᵢ = locationᵢ + wᵢ·(Σ loadingᵢₖ·zₖ + ownᵢ·zᵢ),  wᵢ = √(ν/χ²_ν),  z standard normal
 *
 * so that each item keeps exactly its Student-t, and items keep what they share through the same zₖ.
 * Shared in this version: the shop's effect, each access increment, and the level of a task that
 * comes more than once. Not shared yet: the mechanic, the tail, and how widely jobs vary.
 *
 * @throws RangeError for an unusable item, seed or number of draws
 */
export function simulateSums(
  items: readonly PackageItem[],
  { seed, draws = 20_000 }: SimulationOptions,
): Float64Array {
  const bits = seededBits(seed);
  const sums = new Float64Array(checkedDraws(draws));
  const common = commonComponents(items);
  const normals = new Map<string, Float64Array>();
  for (const component of [...common].sort()) {
    normals.set(component, standardNormals(draws, bits));
  }
  const pools = new Map<number, Float64Array | undefined>();
  const together = new Float64Array(draws);
  for (const item of items) {
    const { location, df } = item.predictive;
    const loadings = (item.shared ?? []).filter(({ component }) => common.has(component));
    const own = ownScale(item, loadings);
    together.fill(0);
    for (const { component, loading } of loadings) {
      const values = normals.get(component);
      if (values === undefined) continue;
      for (let i = 0; i < draws; i += 1) {
        together[i] = (together[i] ?? 0) + loading * (values[i] ?? 0);
      }
    }
    if (!pools.has(df)) pools.set(df, mixingPool(df, bits));
    const pool = pools.get(df);
    for (let i = 0; i < draws; i += 1) {
      const mixing = pool === undefined ? 1 : (pool[bits() >>> POOL_SHIFT] ?? 1);
      const deviation = (together[i] ?? 0) + own * standardNormal(bits);
      sums[i] = (sums[i] ?? 0) + Math.exp(location + mixing * deviation);
    }
  }
  return sums;
}

/**
 * Sum of items: how long a package takes, by seeded simulation, with what is shared kept shared.
 *
 * The sum of the items' P80s is not the P80 of the sum, so both are given. See `simulateSums` for
 * what items share. An empty package takes no time: every figure is 0.
 *
 * @throws RangeError for an unusable item, seed or number of draws
 * @example
 * const certain = { predictive: { location: 0, scale: 0, df: Infinity }, mean: 1, p80: 1 };
 * sumOfItems([certain, certain], { seed: 1 }).p90 // 2
 */
export function sumOfItems(
  items: readonly PackageItem[],
  options: SimulationOptions,
): PackageEstimate {
  const sorted = simulateSums(items, options).sort();
  const quantile = (p: number) => sampleQuantile(sorted, p) as Hours;
  return {
    p10: quantile(0.1),
    p50: quantile(0.5),
    mean: items.reduce((sum, { mean }) => sum + mean, 0) as Hours,
    p80: quantile(0.8),
    p90: quantile(0.9),
    sumOfP80: items.reduce((sum, { p80 }) => sum + p80, 0) as Hours,
  };
}
