import { type Coverage, coverageOf, type QuotedAndClocked } from './coverage.ts';
import { quantileOfSorted } from './sample-quantile.ts';

/** A finished item that had been quoted with hours. */
export type ComparedItem = QuotedAndClocked & {
  /** Year and month in which it was finished, by the shop's clock: 2026-03. */
  readonly month: string;
  /** The short name of its task; empty for the correction of a finding that is no task of the shop. */
  readonly task: string;
  readonly model: string;
};

/** Clocked hours over the quoted P50: 1 as quoted, 1.2 a fifth more. */
export type Ratio = { readonly median: number; readonly low: number; readonly high: number };

export type CoveredMonth = { readonly month: string; readonly coverage: Coverage | null };
export type CoveredGroup = {
  readonly key: string;
  readonly coverage: Coverage;
  readonly ratio: Ratio;
};

export type Accuracy = {
  /** Null where there is nothing to compare. */
  readonly coverage: Coverage | null;
  readonly ratio: Ratio | null;
  /** Every month from the first to the last, also those in which nothing was finished. */
  readonly months: readonly CoveredMonth[];
  /** Most items first. */
  readonly byTask: readonly CoveredGroup[];
  readonly byModel: readonly CoveredGroup[];
};

/**
 * Sample quantile by linear interpolation between order statistics: definition 7 of Hyndman & Fan
 * 1996, The American Statistician 50(4), which R and numpy take unless told otherwise.
 *
 * @param values at least one, in any order
 * @param p from 0 to 1
 * @throws RangeError for no values, or p outside
 * @example sampleQuantile([1, 2, 3, 4], 0.5) // → 2.5
 */
export function sampleQuantile(values: readonly number[], p: number): number {
  if (values.length === 0) throw new RangeError('A quantile needs at least one value; got none.');
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A quantile needs p from 0 to 1; got ${p}.`);
  return quantileOfSorted(
    [...values].sort((a, b) => a - b),
    p,
  );
}

/**
 * Ratio: clocked over quoted P50, its median and its middle half.
 *
 * @returns null for no items
 * @throws RangeError for a P50 that is not above 0
 * @example ratioOf([{ p10: 1, p50: 2, p90: 4, actual: 3 }])?.median // → 1.5
 */
export function ratioOf(items: readonly QuotedAndClocked[]): Ratio | null {
  if (items.length === 0) return null;
  const ratios = items.map(({ p50, actual }) => {
    if (!(p50 > 0)) throw new RangeError(`A ratio needs a P50 above 0; got ${p50}.`);
    return actual / p50;
  });
  const quantile = (p: number) => sampleQuantile(ratios, p);
  return { median: quantile(0.5), low: quantile(0.25), high: quantile(0.75) };
}

/**
 * Miss: hours by which the clock left the quoted range; 0 inside of it.
 *
 * @example missOf({ p10: 1, p50: 2, p90: 4, actual: 5.5 }) // → 1.5
 */
export const missOf = ({ p10, p90, actual }: QuotedAndClocked): number =>
  Math.max(actual - p90, p10 - actual, 0);

/**
 * Orders the biggest misses first: by hours outside of the range, then by hours away from the P50.
 * Others stay as they came.
 *
 * @example biggestMissesFirst([{ p10: 1, p50: 2, p90: 4, actual: 3 }, { p10: 1, p50: 2, p90: 4, actual: 9 }])[0]?.actual // → 9
 */
export function biggestMissesFirst<Item extends QuotedAndClocked>(items: readonly Item[]): Item[] {
  const away = ({ p50, actual }: Item) => Math.abs(actual - p50);
  return [...items].sort((a, b) => missOf(b) - missOf(a) || away(b) - away(a));
}

/** The month after a month: 2026-12 → 2027-01. */
function monthAfter(month: string): string {
  const [year = 0, number = 0] = month.split('-').map(Number);
  return number === 12
    ? `${String(year + 1).padStart(4, '0')}-01`
    : `${String(year).padStart(4, '0')}-${String(number + 1).padStart(2, '0')}`;
}

function groupedBy<Item>(items: readonly Item[], keyOf: (item: Item) => string) {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}

function coveredGroups(
  items: readonly ComparedItem[],
  keyOf: (item: ComparedItem) => string,
): CoveredGroup[] {
  return [...groupedBy(items, keyOf)]
    .map(([key, some]) => ({
      key,
      // A group has at least one item, so both have something to say.
      coverage: coverageOf(some) as Coverage,
      ratio: ratioOf(some) as Ratio,
    }))
    .sort((a, b) => b.coverage.items - a.coverage.items || (a.key < b.key ? -1 : 1));
}

function coveredMonths(items: readonly ComparedItem[]): CoveredMonth[] {
  const groups = groupedBy(items, ({ month }) => month);
  const known = [...groups.keys()].sort();
  const [first, last] = [known[0], known.at(-1)];
  const months: CoveredMonth[] = [];
  if (first === undefined || last === undefined) return months;
  for (let month = first; month <= last; month = monthAfter(month))
    months.push({ month, coverage: coverageOf(groups.get(month) ?? []) });
  return months;
}

/**
 * Accuracy: how the hours that were quoted did against the clock, in all, by month, task and model.
 *
 * @param items in any order
 * @returns `coverage` and `ratio` null where nothing is compared
 * @throws RangeError for a month that is not written year-month, or a P50 that is not above 0
 * @example accuracyOf([]).months // → []
 */
export function accuracyOf(items: readonly ComparedItem[]): Accuracy {
  const bad = items.find(({ month }) => !/^\d{4}-(0[1-9]|1[0-2])$/.test(month));
  if (bad) throw new RangeError(`A month is written as 2026-03; got "${bad.month}".`);
  return {
    coverage: coverageOf(items),
    ratio: ratioOf(items),
    months: coveredMonths(items),
    byTask: coveredGroups(items, ({ task }) => task),
    byModel: coveredGroups(items, ({ model }) => model),
  };
}
