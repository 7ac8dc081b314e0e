import type { Prisma } from '@fairlead/database';
import { type MarkUpBand, markedUpUnit, markUpBand } from '@fairlead/money';

interface Exact {
  toString(): string;
}

/** What the price of a part on any day follows from. */
export const partPriceFacts = {
  id: true,
  title: true,
  unitPrice: true,
  prices: {
    orderBy: [{ validFrom: 'desc' }, { id: 'desc' }],
    select: { unitPrice: true, validFrom: true },
  },
} as const satisfies Prisma.PartSelect;

export interface PartPriceFacts {
  title: string;
  /** The first; null: it came without one. */
  unitPrice: Exact | null;
  /** Later ones, the newest first; null: none of its own from then on. */
  prices: readonly { unitPrice: Exact | null; validFrom: Date }[];
}

/** How cost is marked up on a day, where a part has no price of its own. */
export interface MarkUp {
  readonly from: Date;
  readonly bands: readonly MarkUpBand[];
}

/** A price with what it was made from. */
export interface PartPriced {
  unitPrice: string;
  /** From when that price or those bands hold; null: its first price. */
  from: Date | null;
  /** Where it was marked up: what one unit cost, and by how many per cent. */
  markedUp: { unitCost: string; percent: string } | null;
}

/**
 * What one unit of a part sells for on a day: its own price, the newest of those that hold; else its cost with the mark-up
 * of the band that the cost is in.
 *
 * @param unitCost what one unit cost the shop; null: nobody knows yet, since none ever came
 * @returns null where it has no price of its own, and no cost or no bands say one
 */
export function priceOfPart(
  { unitPrice: first, prices }: PartPriceFacts,
  { day, unitCost, markUp }: { day: Date; unitCost: string | null; markUp: MarkUp | null },
): PartPriced | null {
  const newest = prices.find(({ validFrom }) => validFrom <= day);
  const own = newest ? newest.unitPrice : first;
  if (own !== null)
    return { unitPrice: own.toString(), from: newest?.validFrom ?? null, markedUp: null };
  if (unitCost === null || markUp === null) return null;
  const { percent } = markUpBand(unitCost, markUp.bands);
  return {
    unitPrice: markedUpUnit(unitCost, percent),
    from: markUp.from,
    markedUp: { unitCost, percent },
  };
}
