/** Days before the last one that a date is said in ochre (common practice, no source). */
const SOON = 30;

/**
 * How a lot stands to its last day.
 * - `ageless`: it has none
 * - `past`: its last day is over, and it is not issued
 * - `soon`: within 30 days; the last day itself still counts
 *
 * @param until last day on which it may be fitted, `YYYY-MM-DD`
 * @param today the shop's date, `YYYY-MM-DD`
 * @example shelfLife('2026-12-01', '2026-11-25') // → { stands: 'soon', days: 6 }
 */
export function shelfLife(
  until: string | null,
  today: string,
): { stands: 'ageless' | 'past' | 'soon' | 'good'; days: number } {
  if (until === null) return { stands: 'ageless', days: 0 };
  const days = Math.round((Date.parse(until) - Date.parse(today)) / 86_400_000);
  return { stands: days < 0 ? 'past' : days <= SOON ? 'soon' : 'good', days };
}

interface Kept {
  id: string;
  bin: string;
  shelfLifeUntil: string | null;
  receivedOn: string;
  onHand: string;
  part: { id: string };
}

/** Places in the order in which one walks past them: A2 before A10, those without a name last. */
export function byPlace(one: { bin: string }, other: { bin: string }): number {
  if ((one.bin === '') !== (other.bin === '')) return one.bin === '' ? 1 : -1;
  return one.bin.localeCompare(other.bin, 'en', { numeric: true });
}

/**
 * The lot of each part to take first, where there is more than one: what ends first, then what came
 * first (first expired, first out; common practice, no source). What is past its last day is no choice.
 *
 * @param lots that hold something
 * @param today the shop's date, `YYYY-MM-DD`
 */
export function takeFirst(lots: readonly Kept[], today: string): ReadonlySet<string> {
  const byPart = new Map<string, Kept[]>();
  for (const lot of lots) {
    if (shelfLife(lot.shelfLifeUntil, today).stands === 'past') continue;
    byPart.set(lot.part.id, [...(byPart.get(lot.part.id) ?? []), lot]);
  }
  const first = [...byPart.values()].flatMap((of) => {
    const end = (lot: Kept) => lot.shelfLifeUntil ?? '9999-12-31';
    const [best] = of.toSorted(
      (a, b) => end(a).localeCompare(end(b)) || a.receivedOn.localeCompare(b.receivedOn),
    );
    return of.length < 2 || best === undefined ? [] : [best.id];
  });
  return new Set(first);
}

export interface Bin<L> {
  name: string;
  lots: readonly L[];
}

/**
 * The rack as it stands: a shelf a letter, its bins in order. A bin whose name is no letter and
 * figure stands on a shelf of its own name.
 *
 * @example shelvesOf([{ bin: 'B1' }, { bin: 'A10' }, { bin: 'A2' }]).map(({ name, bins }) => [name, bins.map((bin) => bin.name)]) // → [['A', ['A2', 'A10']], ['B', ['B1']]]
 */
export function shelvesOf<L extends { bin: string }>(
  lots: readonly L[],
): { name: string; bins: Bin<L>[] }[] {
  const shelves = new Map<string, Map<string, L[]>>();
  for (const lot of lots.toSorted(byPlace)) {
    const shelf = /^([A-Za-z]+)[ -]?\d+$/.exec(lot.bin)?.[1]?.toUpperCase() ?? lot.bin;
    const bins = shelves.get(shelf) ?? new Map<string, L[]>();
    bins.set(lot.bin, [...(bins.get(lot.bin) ?? []), lot]);
    shelves.set(shelf, bins);
  }
  return [...shelves].map(([name, bins]) => ({
    name,
    bins: [...bins].map(([bin, of]) => ({ name: bin, lots: of })),
  }));
}

/**
 * A quantity as it is typed, for the API: more than 0, at most three decimals; null where it is none.
 *
 * @example typedQuantity(' 2.5 ') // → '2.5'
 * @example typedQuantity('0') // → null
 */
export function typedQuantity(typed: string): string | null {
  const text = typed.trim();
  return /^\d{1,6}(\.\d{1,3})?$/.test(text) && Number(text) > 0 ? text : null;
}

/**
 * A count as it is typed, for the API: 0 or more, at most three decimals; null where it is none.
 *
 * @example typedCount('0') // → '0'
 * @example typedCount('-1') // → null
 */
export function typedCount(typed: string): string | null {
  const text = typed.trim();
  return /^\d{1,6}(\.\d{1,3})?$/.test(text) && Number(text) <= 100_000 ? text : null;
}
