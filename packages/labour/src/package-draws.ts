import type { PackageItem, SharedUncertainty, SimulationOptions } from './package-item.ts';
import { type Bits, gamma, seededBits, standardNormal, uniform } from './random.ts';

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

/** @throws RangeError for a number of draws that is not whole, or out of range */
export function drawsOf({ draws = 20_000 }: SimulationOptions): number {
  if (!Number.isInteger(draws) || draws < 1 || draws > 1_000_000) {
    throw new RangeError(`Draws must be a whole number from 1 to 1000000; got ${draws}.`);
  }
  return draws;
}

type Part = { readonly values: Float64Array; readonly loading: number };
const NOTHING: Part = { values: new Float64Array(0), loading: 0 };

/** Adds what an item shares, four components at a time: once over the draws for each would be all waiting for memory. */
function addShared(together: Float64Array, parts: readonly Part[]): void {
  for (let k = 0; k < parts.length; k += 4) {
    const [a, b = NOTHING, c = NOTHING, d = NOTHING] = parts.slice(k, k + 4) as [
      Part,
      Part?,
      Part?,
      Part?,
    ];
    if (d === NOTHING) {
      for (const { values, loading } of [a, b, c]) {
        for (let i = 0; i < values.length; i += 1) together[i]! += loading * values[i]!;
      }
      continue;
    }
    for (let i = 0; i < together.length; i += 1) {
      together[i]! +=
        a.loading * a.values[i]! +
        b.loading * b.values[i]! +
        c.loading * c.values[i]! +
        d.loading * d.values[i]!;
    }
  }
}

/** Whether each event turns up, draw by draw. */
function drawnEvents(
  items: readonly PackageItem[],
  draws: number,
  bits: Bits,
): ReadonlyMap<string, Uint8Array> {
  const events = new Map<string, number>();
  for (const { event } of items) {
    if (event === undefined) continue;
    const { name, probability } = event;
    if (!(probability >= 0 && probability <= 1)) {
      throw new RangeError(
        `The probability of "${name}" must lie between 0 and 1; got ${probability}.`,
      );
    }
    const former = events.get(name);
    if (former !== undefined && former !== probability) {
      throw new RangeError(
        `The event "${name}" has two probabilities, ${former} and ${probability}; give it one.`,
      );
    }
    events.set(name, probability);
  }
  const drawn = new Map<string, Uint8Array>();
  for (const [name, probability] of [...events].sort(([one], [other]) => (one < other ? -1 : 1))) {
    const happens = new Uint8Array(draws);
    for (let i = 0; i < draws; i += 1) happens[i] = uniform(bits) < probability ? 1 : 0;
    drawn.set(name, happens);
  }
  return drawn;
}

/**
 * Draws of the hours of each item, the same draw by draw for what items share:
 *
 *     ln hᵢ = locationᵢ + wᵢ·(Σ loadingᵢₖ·zₖ + ownᵢ·zᵢ),  wᵢ = √(ν/χ²_ν),  z standard normal
 *
 * so that each item keeps exactly its Student-t, and items keep what they share through the same zₖ. An item of an event
 * that does not turn up in a draw has 0 hours in it.
 *
 * @param visit called item by item, in order, with its draws; the array is used again for the next
 * @throws RangeError for an unusable item, event, seed or number of draws
 */
export function drawItems(
  items: readonly PackageItem[],
  options: SimulationOptions,
  visit: (index: number, drawn: Float64Array) => void,
): void {
  const draws = drawsOf(options);
  const bits = seededBits(options.seed);
  const common = commonComponents(items);
  const normals = new Map<string, Float64Array>();
  for (const component of [...common].sort()) {
    normals.set(component, standardNormals(draws, bits));
  }
  const events = drawnEvents(items, draws, bits);
  const pools = new Map<number, Float64Array | undefined>();
  const together = new Float64Array(draws);
  for (const [index, item] of items.entries()) {
    const { location, df } = item.predictive;
    const loadings = (item.shared ?? []).filter(({ component }) => common.has(component));
    const own = ownScale(item, loadings);
    together.fill(0);
    addShared(
      together,
      loadings.map(({ component, loading }) => ({ values: normals.get(component)!, loading })),
    );
    if (!pools.has(df)) pools.set(df, mixingPool(df, bits));
    const pool = pools.get(df);
    if (pool === undefined) {
      for (let i = 0; i < draws; i += 1) {
        together[i] = Math.exp(location + together[i]! + own * standardNormal(bits));
      }
    } else {
      for (let i = 0; i < draws; i += 1) {
        const mixing = pool[bits() >>> POOL_SHIFT]!;
        together[i] = Math.exp(location + mixing * (together[i]! + own * standardNormal(bits)));
      }
    }
    const happens = item.event === undefined ? undefined : events.get(item.event.name);
    if (happens !== undefined) {
      for (let i = 0; i < draws; i += 1) together[i]! *= happens[i]!;
    }
    visit(index, together);
  }
}
