import type { Prisma, ToolCountKind } from '@fairlead/database';

/** What is needed to say whether what was counted out was counted back. */
export const toolCountFacts = {
  kind: true,
  itemId: true,
  item: { select: { position: true, title: true } },
  at: true,
  by: { select: { name: true } },
  clientEventId: true,
  lines: { orderBy: { name: 'asc' }, select: { name: true, number: true } },
} satisfies Prisma.ToolCountSelect;

export const inTurn = [
  { at: 'asc' },
  { id: 'asc' },
] satisfies Prisma.ToolCountOrderByWithRelationInput[];

export interface ToolCountFacts {
  kind: ToolCountKind;
  itemId: string | null;
  item: { position: number; title: string } | null;
  at: Date;
  by: { name: string };
  clientEventId: string;
  lines: readonly { name: string; number: number }[];
}

/** One name on the list: how many went out, and how many the last count back found. */
export interface CountedName {
  name: string;
  out: number;
  /** Null: not counted back yet. */
  back: number | null;
}

/** Where the counts of an order, or of one item of it, stand. */
export interface CountState {
  itemId: string | null;
  item: { position: number; title: string } | null;
  /** Everything out since the last count that agreed, with what a count back found since; empty: all is back. */
  names: CountedName[];
  agrees: boolean;
  lastAt: Date;
  lastBy: string;
  /** Of the counts that it is made of. */
  clientEventIds: string[];
}

const keyOf = (name: string) => name.toLowerCase();

/**
 * Where the counts of an order stand: one state for the order itself and one for each item that was counted for.
 * A count back is a whole count: it is held against everything that went out since the last one that agreed. What it
 * finds that never went out does not agree either: it may be another job's. What is lacking can be accounted for.
 *
 * @param counts in the order in which they happened
 */
export function countStates(counts: readonly ToolCountFacts[]): CountState[] {
  const scopes = new Map<string | null, ToolCountFacts[]>();
  for (const count of counts) {
    const known = scopes.get(count.itemId) ?? [];
    known.push(count);
    scopes.set(count.itemId, known);
  }
  return [...scopes.values()].flatMap((each) => {
    const last = each.at(-1);
    if (!last) return [];
    const names = stillOut(each);
    const { itemId, item, at: lastAt, by } = last;
    const clientEventIds = each.map(({ clientEventId }) => clientEventId);
    const agrees = names.length === 0;
    return [{ itemId, item, names, agrees, lastAt, lastBy: by.name, clientEventIds }];
  });
}

/** Everything of the round under way; empty once a count back agrees or the rest is accounted for. */
function stillOut(counts: readonly ToolCountFacts[]): CountedName[] {
  let round = new Map<string, CountedName>();
  for (const { kind, lines } of counts) {
    if (kind === 'accounted_for') {
      round = new Map();
    } else if (kind === 'out') {
      // What was counted before more went out says nothing of the whole; what never went out is no part of it.
      round = new Map(
        [...round]
          .filter(([, { out }]) => out > 0)
          .map(([key, known]) => [key, { ...known, back: null }]),
      );
      for (const { name, number } of lines) {
        const known = round.get(keyOf(name)) ?? { name, out: 0, back: null };
        round.set(keyOf(name), { ...known, out: known.out + number });
      }
    } else {
      const found = new Map(lines.map((line) => [keyOf(line.name), line]));
      const names = [...round.values()]
        .filter(({ out }) => out > 0)
        .map((known) => ({ ...known, back: found.get(keyOf(known.name))?.number ?? 0 }));
      const strange = lines
        .filter(
          ({ name, number }) =>
            number > 0 && !names.some((known) => keyOf(known.name) === keyOf(name)),
        )
        .map(({ name, number }) => ({ name, out: 0, back: number }));
      const all = [...names, ...strange];
      round = all.every(({ out, back }) => out === back)
        ? new Map()
        : new Map(all.map((known) => [keyOf(known.name), known]));
    }
  }
  return [...round.values()];
}

/** 6 rags out and 5 back; torque wrench out and not counted back */
export function sayDifference(names: readonly CountedName[]): string {
  return names
    .filter(({ out, back }) => out !== back)
    .map(({ name, out, back }) =>
      back === null ? `${name}: ${out} out, not counted back` : `${name}: ${out} out, ${back} back`,
    )
    .join('; ');
}
