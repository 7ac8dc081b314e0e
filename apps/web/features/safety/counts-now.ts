import type { FactInputs } from './facts.ts';
import type { UnsentFact } from './kept-facts.ts';
import { linesNow } from './open-now.ts';
import type { CountState, OpenOrder } from './order-documents.ts';

/** A count of tools and rags as it stands with what this device has counted; `unsent`: the shop has not got it yet. */
export type CountNow = CountState & { unsent?: true };
type Names = CountState['names'];

/** The counts of an order after what this device has counted. What the shop has of it by now counts once. */
export function countsNow(
  orderId: string,
  counts: readonly CountState[],
  facts: readonly UnsentFact[],
): CountNow[] {
  const now: CountNow[] = [...counts];
  for (const { does, input, id, at, name } of facts) {
    if (does !== 'count' || input.orderId !== orderId) continue;
    const itemId = input.itemId == null ? null : String(input.itemId);
    const place = now.findIndex((count) => count.itemId === itemId);
    const known = now[place];
    // What pages of before kept on a device names no ids.
    const ids: readonly string[] = known?.clientEventIds ?? [];
    if (ids.includes(id)) continue;
    const names = namesAfter(known?.names ?? [], input);
    now.splice(place < 0 ? now.length : place, 1, {
      ...{ itemId, names, agrees: names.length === 0, lastAt: at, lastBy: name },
      ...{ clientEventIds: [...ids, id], unsent: true },
    });
  }
  return now;
}

/** How many things have to be closed on an order before anybody signs, with what this device has noted. */
export const unclosedNow = (
  { id, openLines, toolCounts }: Pick<OpenOrder, 'id' | 'openLines' | 'toolCounts'>,
  facts: readonly UnsentFact[],
): number =>
  linesNow(id, openLines, facts).filter(({ state }) => state === 'open').length +
  countsNow(id, toolCounts, facts).filter(({ agrees }) => !agrees).length;

const keyOf = (name: string) => name.toLowerCase();
const asKept = (name: string) => name.replace(/\s+/g, ' ').trim();

/**
 * What is still out after one more count, as the shop reckons it: a count back is a whole count, held against everything
 * that went out since the last one that agreed; what it finds that never went out does not agree either.
 *
 * @param names everything of the round under way; empty: all is back
 */
export function namesAfter(
  names: Names,
  { kind, lines: given }: Pick<FactInputs['count'], 'kind' | 'lines'>,
): Names {
  if (kind === 'accounted_for') return [];
  const lines = given
    .map((line) => ({ ...line, name: asKept(line.name) }))
    .sort((one, other) => (one.name < other.name ? -1 : 1));
  // What never went out is no part of the round.
  const out = names.filter((each) => each.out > 0);
  if (kind === 'out') {
    // What was counted before more went out says nothing of the whole.
    const round = new Map(out.map((each) => [keyOf(each.name), { ...each, back: null }]));
    for (const { name, number } of lines) {
      const known = round.get(keyOf(name)) ?? { name, out: 0, back: null };
      round.set(keyOf(name), { ...known, out: known.out + number });
    }
    return [...round.values()];
  }
  const found = new Map(lines.map(({ name, number }) => [keyOf(name), number]));
  const back = out.map((each) => ({ ...each, back: found.get(keyOf(each.name)) ?? 0 }));
  const strange = lines
    .filter(
      ({ name, number }) => number > 0 && !out.some((each) => keyOf(each.name) === keyOf(name)),
    )
    .map(({ name, number }) => ({ name, out: 0, back: number }));
  const all = [...back, ...strange];
  return all.every((each) => each.out === each.back) ? [] : all;
}
