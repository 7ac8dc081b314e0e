import type { Prisma, Tx } from '@fairlead/database';
import { type Currency, type Minor, minor, nothing } from '@fairlead/money';
import { asIssued, type OnOrder, onOrder } from '../on-order.ts';
import { ceilingOf } from '../overrun.ts';
import { pastCeiling } from './beyond-authority.ts';
import { type CostFacts, costFacts, costSoFar } from './cost-so-far.ts';
import { movedFacts } from './parts-so-far.ts';
import { type PriceOfWork, priceUnder } from './price-of-work.ts';
import { type AgreedFacts, agreedFacts, agreedOf, everAgreed } from './queries.ts';

/** Parts that are to go to an item, and at which price they would. */
export type PartComing = Pick<OnOrder, 'itemId' | 'quantity' | 'lot'> & {
  /** The line of a purchase order that they are on the way by: there they count no longer. */
  lineId?: string | null;
};

export interface BeyondWithPart {
  order: number;
  /** What the order would have come to past what may be billed. */
  beyond: Minor;
  /** How far it may be worked and billed. */
  ceiling: Minor;
  currency: Currency;
}

/** What the price of a lot follows from. */
export const comingLot = {
  ...movedFacts.select.lot.select,
  purchaseLineId: true,
} as const satisfies Prisma.LotSelect;

/**
 * How far an order would go past authority with more parts, together with those on the way to it; null where it would not go
 * further than it has, where nobody ever agreed to anything (nothing is held against a ceiling that nobody named), or where a
 * price is missing. What was agreed and does not hold any more leaves a ceiling of nothing. What was written off is settled, and
 * makes no room.
 *
 * The caller holds the order, so that of two at once the second is held against the first.
 *
 * @param day the shop's day, whose prices count
 */
export async function beyondWithParts(
  tx: Tx,
  { orderId, day, now }: { orderId: string; day: Date; now: Date },
  parts: readonly PartComing[],
): Promise<BeyondWithPart | null> {
  const price = await priceUnder(tx, day);
  const order = await tx.workOrder.findUniqueOrThrow({
    where: { id: orderId },
    select: { number: true, ...agreedFacts, ...costFacts },
  });
  if (!everAgreed(order)) return null;
  const onWay = await onOrder(tx, orderId);
  const pastWith = (coming: readonly Pick<OnOrder, 'itemId' | 'quantity' | 'lot'>[]) => {
    const facts = withComing(order, coming, now);
    const cost = costSoFar(facts, price, now);
    return cost === null ? null : pastCeiling(order, cost, price.overrun);
  };
  const before = pastWith(onWay);
  const beyond = pastWith([...stillOnWay(onWay, parts), ...parts]);
  if (before === null || beyond === null || beyond <= before) return null;
  const { currency, overrun } = price;
  return { order: order.number, beyond, ceiling: ceilingOf(agreedOf(order), overrun), currency };
}

/**
 * How much further past authority an order goes with what is on the way to it; 0 where it does not, or where nobody ever agreed to
 * anything; null where a price is missing.
 */
export function beyondOnOrder(
  order: AgreedFacts & CostFacts,
  onWay: readonly OnOrder[],
  price: PriceOfWork,
  now: Date,
): Minor | null {
  if (!everAgreed(order) || onWay.length === 0) return nothing;
  const [cost, whole] = [order, withComing(order, onWay, now)].map((facts) =>
    costSoFar(facts, price, now),
  );
  if (cost === null || cost === undefined || whole === null || whole === undefined) return null;
  const past = (amount: Minor) => pastCeiling(order, amount, price.overrun);
  return minor(past(whole) - past(cost));
}

/** An order as if what is on the way were at its work. */
export function withComing<
  Facts extends { items: readonly { id: string; movements: readonly unknown[] }[] },
>(order: Facts, coming: readonly Pick<OnOrder, 'itemId' | 'quantity' | 'lot'>[], now: Date): Facts {
  if (coming.length === 0) return order;
  return {
    ...order,
    items: order.items.map((item) => ({
      ...item,
      movements: [
        ...item.movements,
        ...coming.filter(({ itemId }) => itemId === item.id).map((each) => asIssued(each, now)),
      ],
    })),
  };
}

/** What is on the way less what now goes to the work: it was held against the ceiling when it was ordered. */
function stillOnWay(onWay: readonly OnOrder[], parts: readonly PartComing[]): OnOrder[] {
  return onWay.flatMap((each) => {
    const here = parts.filter(({ lineId }) => lineId === each.lineId);
    const left = here.reduce((sum, { quantity }) => sum.minus(quantity), each.quantity);
    return left.greaterThan(0) ? [{ ...each, quantity: left }] : [];
  });
}
