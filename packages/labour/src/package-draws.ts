import { exponentiate } from './exponentials.ts';
import type { PackageItem, SharedUncertainty, SimulationOptions } from './package-item.ts';
import { type Bits, fillNormals, gamma, seededBits, standardNormal, uniform } from './random.ts';

/** Mixing factors √(ν/χ²) of a Student-t; a power of two, so that a few bits choose one. */
const POOL = 8192;
const POOL_SHIFT = 19;

function mixingPool(df: number, bits: Bits): Float64Array | undefined {
  if (df === Infinity) return undefined;
  return Float64Array.from({ length: POOL }, () => Math.sqrt(df / (2 * gamma(df / 2, bits))));
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

/** Adds what an item shares, four components at a time: once over the draws for each would be all waiting for memory. */
function addShared(
  together: Float64Array,
  from: number,
  parts: readonly { readonly values: Float64Array; readonly loading: number }[],
): void {
  const { length } = together;
  let k = 0;
  for (; k + 4 <= parts.length; k += 4) {
    const { values: a, loading: ofA } = parts[k]!;
    const { values: b, loading: ofB } = parts[k + 1]!;
    const { values: c, loading: ofC } = parts[k + 2]!;
    const { values: d, loading: ofD } = parts[k + 3]!;
    for (let i = 0; i < length; i += 1) {
      const at = from + i;
      together[i]! += ofA * a[at]! + ofB * b[at]! + ofC * c[at]! + ofD * d[at]!;
    }
  }
  for (; k < parts.length; k += 1) {
    const { values, loading } = parts[k]!;
    for (let i = 0; i < length; i += 1) together[i]! += loading * values[from + i]!;
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

/** What the dice gave for one item: normals of its own, and its mixing factors where it has any. */
type Thrown = {
  readonly item: PackageItem;
  readonly index: number;
  readonly own: number;
  readonly normals: Float64Array;
  readonly mixing: Float64Array | undefined;
  readonly happens: Uint8Array | undefined;
  readonly shared: readonly { readonly values: Float64Array; readonly loading: number }[];
};

/** Draws that are worked on together, and items: what they need stays near the processor. */
const STRETCH = 1000;
const ABREAST = 8;

/** Works out draws of an item from what was thrown for it. */
function workOut(
  together: Float64Array,
  from: number,
  { item, own, normals, mixing, happens, shared }: Thrown,
): void {
  const { location } = item.predictive;
  const { length } = together;
  for (let i = 0; i < length; i += 1) together[i] = own * normals[from + i]!;
  addShared(together, from, shared);
  if (mixing === undefined) {
    for (let i = 0; i < length; i += 1) together[i]! += location;
  } else {
    for (let i = 0; i < length; i += 1) together[i] = location + mixing[from + i]! * together[i]!;
  }
  exponentiate(together);
  if (happens !== undefined) for (let i = 0; i < length; i += 1) together[i]! *= happens[from + i]!;
}

/**
 * Draws of the hours of each item, the same draw by draw for what items share:
 *
 *     ln hᵢ = locationᵢ + wᵢ·(Σ loadingᵢₖ·zₖ + ownᵢ·zᵢ),  wᵢ = √(ν/χ²_ν),  z standard normal
 *
 * so that each item keeps exactly its Student-t, and items keep what they share through the same zₖ. An item of an event
 * that does not turn up in a draw has 0 hours in it. The dice are thrown in one order: what is shared, events, then item
 * after item; a seed gives the same draws whatever is looked at first.
 *
 * @param visit called with a stretch of an item's draws, of which the first is draw `from`; items and stretches come in no
 *   order that means anything, and the array is used again for the next
 * @throws RangeError for an unusable item, event, seed or number of draws
 */
export function drawItems(
  items: readonly PackageItem[],
  options: SimulationOptions,
  visit: (index: number, drawn: Float64Array, from: number) => void,
): void {
  const draws = drawsOf(options);
  const bits = seededBits(options.seed);
  const common = commonComponents(items);
  const components = new Map<string, Float64Array>();
  for (const component of [...common].sort()) {
    const values = new Float64Array(draws);
    fillNormals(values, bits);
    components.set(component, values);
  }
  const events = drawnEvents(items, draws, bits);
  const pools = new Map<number, Float64Array | undefined>();
  const together = new Float64Array(Math.min(STRETCH, draws));
  const kept = Array.from(
    { length: Math.min(ABREAST, items.length) },
    () => new Float64Array(draws),
  );
  const throwFor = (item: PackageItem, index: number): Thrown => {
    const { df } = item.predictive;
    const loadings = (item.shared ?? []).filter(({ component }) => common.has(component));
    const own = ownScale(item, loadings);
    if (!pools.has(df)) pools.set(df, mixingPool(df, bits));
    const pool = pools.get(df);
    const normals = kept[index % ABREAST]!;
    const mixing = pool && new Float64Array(draws);
    if (pool && mixing) throwMixed(normals, mixing, pool, bits);
    else fillNormals(normals, bits);
    return {
      ...{ item, index, own, normals, mixing },
      happens: item.event && events.get(item.event.name),
      shared: loadings.map(({ component, loading }) => ({
        values: components.get(component)!,
        loading,
      })),
    };
  };
  for (let first = 0; first < items.length; first += ABREAST) {
    const thrown = items
      .slice(first, first + ABREAST)
      .map((item, after) => throwFor(item, first + after));
    for (let from = 0; from < draws; from += STRETCH) {
      const stretch = from + STRETCH <= draws ? together : together.subarray(0, draws - from);
      for (const one of thrown) {
        workOut(stretch, from, one);
        visit(one.index, stretch, from);
      }
    }
  }
}

/** A mixing factor and a normal in turn, draw by draw. */
function throwMixed(
  normals: Float64Array,
  mixing: Float64Array,
  pool: Float64Array,
  bits: Bits,
): void {
  for (let i = 0; i < normals.length; i += 1) {
    mixing[i] = pool[bits() >>> POOL_SHIFT]!;
    normals[i] = standardNormal(bits);
  }
}
