import type { Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { givenQuantity, sayDay } from '../given.ts';
import { partPriceFacts } from '../part-price.ts';
import { markUpOn } from '../quoting/queries.ts';

/** The selling price of one unit; null: none of its own. */
export const givenUnitPrice = (given: string | null): string | null =>
  given === null
    ? null
    : givenQuantity(given, 'unitPrice', { most: 1_000_000, decimals: 4, zero: true });

/** Without a price of its own a part is marked up by the shop's bands: there have to be some on that day. */
export async function refuseUnpriced(tx: Tx, title: string, day: Date): Promise<void> {
  if ((await markUpOn(tx, day)) === null)
    throw new Refused(
      'AGAINST_RULE',
      `${title} was given without a price from ${sayDay(day)}, and the shop has no mark-up bands on that day: needed is a price, or bands by which its cost is marked up.`,
      'unitPrice',
    );
}

interface NewPrice {
  partId: string;
  unitPrice: string | null;
  from: Date;
  today: Date;
  now: Date;
  personId: string;
}

/** A new price of a part from a day on, where another holds on that day; what was quoted keeps its own. */
export async function appendPrice(tx: Tx, price: NewPrice): Promise<void> {
  const { partId, unitPrice, from, today, now, personId } = price;
  const part = await tx.part.findUniqueOrThrow({
    where: { id: partId },
    select: partPriceFacts,
  });
  const newest = part.prices.find(({ validFrom }) => validFrom <= from);
  const holds = newest ? newest.unitPrice : part.unitPrice;
  const same = unitPrice === null ? holds === null : (holds?.equals(unitPrice) ?? false);
  if (same) return;
  if (from < today)
    throw new Refused(
      'AGAINST_RULE',
      `A price of ${part.title} was given from ${sayDay(from)}: needed is today, ${sayDay(today)}, or later, since what was reckoned until now stays as it was.`,
      'priceFrom',
    );
  if (unitPrice === null) await refuseUnpriced(tx, part.title, from);
  await tx.partPrice.create({
    data: { partId, unitPrice, validFrom: from, at: now, byId: personId },
    select: { id: true },
  });
}
