import type { Prisma, Tx } from '@fairlead/database';
import { notFound } from '../errors.ts';
import { partPriceFacts } from '../part-price.ts';
import type { OfferedPart } from './offered.ts';
import type { PriceList } from './price-list.ts';

const facts = {
  ...partPriceFacts,
  category: true,
  coreChargeMinor: true,
  // What it cost the last time: where it has no price of its own, that is marked up.
  lots: {
    orderBy: [{ receivedOn: 'desc' }, { id: 'desc' }],
    take: 1,
    select: { unitCost: true },
  },
} as const satisfies Prisma.PartSelect;

type WantedPart = Prisma.PartGetPayload<{ select: typeof facts }> & { quantity: string };

/** The parts that somebody wants quoted, in their order. */
export async function partsWanted(
  read: Tx,
  wanted: readonly { partId: string; quantity: string }[],
): Promise<WantedPart[]> {
  const parts = await read.part.findMany({
    where: { id: { in: wanted.map(({ partId }) => partId) } },
    select: facts,
  });
  const known = new Map(parts.map((part) => [part.id, part]));
  return wanted.map(({ partId, quantity }) => {
    const part = known.get(partId);
    if (!part) throw notFound('part');
    return { ...part, quantity };
  });
}

/** A part at its price of the day. */
export const offeredPart = (part: WantedPart, prices: PriceList): OfferedPart => ({
  id: part.id,
  title: part.title,
  category: part.category,
  quantity: part.quantity,
  coreCharge: part.coreChargeMinor,
  priced: prices.priceOf(part, part.lots[0]?.unitCost.toFixed() ?? null),
});
