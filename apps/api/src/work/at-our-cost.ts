import type { OurCostKind, Prisma } from '@fairlead/database';

/** The last word on who pays for an item. */
export const ourCostFacts = {
  orderBy: [{ at: 'desc' }, { id: 'desc' }],
  take: 1,
  select: { kind: true },
} as const satisfies Prisma.WorkItem$atOurCostArgs;

export interface OurCostFacts {
  atOurCost?: readonly { kind: OurCostKind | null }[];
}

/** Why an item is at the shop's own cost; null: it is billed. */
export const ourCostOf = ({ atOurCost }: OurCostFacts): OurCostKind | null =>
  atOurCost?.[0]?.kind ?? null;

/** The items that somebody pays for. */
export const billedOf = <Item extends OurCostFacts>(items: readonly Item[]): Item[] =>
  items.filter((item) => ourCostOf(item) === null);
