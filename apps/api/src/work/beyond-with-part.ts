import type { Tx } from '@fairlead/database';
import { Prisma } from '@fairlead/database';
import type { Currency, Minor } from '@fairlead/money';
import type { Context } from '../context.ts';
import { ceilingOf } from '../overrun.ts';
import { beyondAuthority } from './beyond-authority.ts';
import { costFacts, costSoFar } from './cost-so-far.ts';
import { movedFacts } from './parts-so-far.ts';
import { priceOfWork } from './price-of-work.ts';
import { agreedFacts, agreedOf } from './queries.ts';

export interface PartWanted {
  orderId: string;
  itemId: string;
  lotId: string;
  /** A plain decimal above 0. */
  quantity: string;
}

export interface BeyondWithPart {
  order: number;
  /** What the order would have come to past what may be billed. */
  beyond: Minor;
  /** How far it may be worked and billed. */
  ceiling: Minor;
  currency: Currency;
}

/**
 * How far an order would go past authority by an issue; null where it would not go further than it has, where nobody agreed to
 * anything yet (nothing is held against a ceiling that nobody named), or where a price is missing.
 */
export async function beyondWithPart(
  tx: Tx,
  context: Context,
  { orderId, itemId, lotId, quantity }: PartWanted,
): Promise<BeyondWithPart | null> {
  const price = await priceOfWork(context);
  const order = await tx.workOrder.findUniqueOrThrow({
    where: { id: orderId },
    select: {
      number: true,
      ...agreedFacts,
      ...costFacts,
      writeOffs: { select: { amountMinor: true } },
    },
  });
  const agreed = agreedOf(order);
  if (agreed === 0n) return null;
  const lot = await tx.lot.findUniqueOrThrow({
    where: { id: lotId },
    select: movedFacts.select.lot.select,
  });
  const now = context.now();
  const issued = { quantity: new Prisma.Decimal(quantity).negated(), at: now, lot };
  const beyondOf = (facts: typeof order) =>
    beyondAuthority(facts, costSoFar(facts, price, now), price.overrun);
  const before = beyondOf(order);
  const beyond = beyondOf({
    ...order,
    items: order.items.map((item) =>
      item.id === itemId ? { ...item, movements: [...item.movements, issued] } : item,
    ),
  });
  if (before === null || beyond === null || beyond <= before) return null;
  const { currency } = price;
  return { order: order.number, beyond, ceiling: ceilingOf(agreed, price.overrun), currency };
}
