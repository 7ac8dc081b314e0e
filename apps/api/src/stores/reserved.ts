import type { OrderEventKind, Prisma, ReservationKind } from '@fairlead/database';

/** What of a lot tells how much of it is reserved, and for which orders. */
export const reservedFacts = {
  onHand: true,
  reservations: {
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: {
      kind: true,
      quantity: true,
      orderId: true,
      order: { select: { events: { select: { kind: true } } } },
    },
  },
  movements: {
    where: { fromReserved: { gt: 0 } },
    select: { fromReserved: true, item: { select: { orderId: true } } },
  },
} satisfies Prisma.LotSelect;

type Quantity = Prisma.Decimal;
interface ReservedFacts {
  onHand: Quantity;
  reservations: readonly {
    kind: ReservationKind;
    quantity: Quantity;
    orderId: string;
    order: { events: readonly { kind: OrderEventKind }[] };
  }[];
  movements: readonly { fromReserved: Quantity; item: { orderId: string } | null }[];
}

const ends = new Set<OrderEventKind>(['released', 'closed', 'cancelled']);

/**
 * What is reserved of a lot now, by order: what was reserved, less what was given free, less what was issued out of it.
 * An order that is over keeps nothing. Orders for which nothing is left are not named.
 */
export function reservedFor({
  reservations,
  movements,
}: Pick<ReservedFacts, 'reservations' | 'movements'>): Map<string, Quantity> {
  const kept = new Map<string, Quantity>();
  for (const { kind, quantity, orderId, order } of reservations) {
    if (order.events.some((event) => ends.has(event.kind))) continue;
    const before = kept.get(orderId);
    const signed = kind === 'reserved' ? quantity : quantity.negated();
    kept.set(orderId, before?.plus(signed) ?? signed);
  }
  for (const { fromReserved, item } of movements) {
    const before = item && kept.get(item.orderId);
    if (item && before) kept.set(item.orderId, before.minus(fromReserved));
  }
  for (const [orderId, quantity] of kept) if (quantity.isZero()) kept.delete(orderId);
  return kept;
}

/** How much of a lot is reserved in all, and what is left for anybody: less than nothing where a count found too few. */
export function availableOf(facts: ReservedFacts): { reserved: Quantity; available: Quantity } {
  const zero = facts.onHand.minus(facts.onHand);
  const reserved = [...reservedFor(facts).values()].reduce((sum, each) => sum.plus(each), zero);
  return { reserved, available: facts.onHand.minus(reserved) };
}
