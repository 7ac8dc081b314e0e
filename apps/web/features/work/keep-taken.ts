import type { QueryClient } from '@tanstack/react-query';
import { orderAsked } from '../safety/use-open.ts';
import { itemAsked } from './item-asked.ts';
import { sheetsAreOld } from './keep-bench.ts';
import type { Pending } from './pending.ts';

/** From so many sheets on, all of them in one request cost the shop less. */
const MOST_SHEETS = 4;

/**
 * Brings what is kept of the sheets that something was said about up to date, while nobody looks at them; open ones read
 * for themselves. What cannot be told, or is too much, comes with the next reading of all sheets.
 *
 * @param ranBefore the item on which a clock ran until now: starting another one stops it
 */
export function keepTaken(
  queries: QueryClient,
  taken: readonly Pending[],
  ranBefore: string | undefined,
  allAreOld: () => void = sheetsAreOld,
): void {
  const said = taken.map(sheetsOf);
  const of = (which: 'items' | 'orders') => [
    ...new Set(said.flatMap((each) => each?.[which] ?? [])),
  ];
  const clocked = taken.some(({ kind }) => kind === 'clock');
  const items = new Set([
    ...of('items'),
    ...(clocked && ranBefore !== undefined ? [ranBefore] : []),
  ]);
  const orders = of('orders');
  if (said.includes(null) || items.size + orders.length > MOST_SHEETS) return allAreOld();
  const asked = [
    ...[...items].map((id) => itemAsked(id)),
    ...orders.map((id) => orderAsked(id)),
  ] as ReturnType<typeof itemAsked>[];
  for (const one of asked)
    if (queries.getQueryCache().find(one)?.isActive() !== true)
      void queries.fetchQuery(one).catch(allAreOld);
}

/**
 * The sheets that show what was said; null where that cannot be told from here.
 *
 * @example sheetsOf({ kind: 'cautions', itemId: 'a', … }) // → { items: ['a'], orders: [] }
 */
export function sheetsOf(entry: Pending): { items: string[]; orders: string[] } | null {
  const { itemId, orderId } = whatItNames(entry);
  if (itemId == null && orderId == null) return null;
  return {
    items: itemId == null ? [] : [String(itemId)],
    orders: orderId == null ? [] : [String(orderId)],
  };
}

type Named = { itemId?: string | number | null; orderId?: string | number | null };

function whatItNames(entry: Pending): Named {
  switch (entry.kind) {
    case 'cautions':
      return entry;
    case 'answer':
      return entry.of;
    // A photo names its finding, a correction its event.
    case 'photo':
    case 'correction':
      return {};
    default:
      return entry.input as Named;
  }
}
