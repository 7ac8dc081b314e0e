import type { MovementKind, Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { orderFacts, orderState } from '../states.ts';

/** A lot with its part, held to the end of the transaction. */
export async function lotForChange(tx: Tx, lotId: string) {
  await holdFor(tx, 'lot', lotId);
  const lot = await tx.lot.findUnique({
    where: { id: lotId },
    include: { part: { select: { title: true, unit: true } } },
  });
  if (!lot) throw notFound('lot');
  return { ...lot, name: `${lot.part.title}, batch ${lot.batch}` };
}

/**
 * Holds the order of an item to the end of the transaction, before any lot is held: what goes to its work is held against one
 * ceiling, one after the other.
 */
export async function holdOrderOf(tx: Tx, itemId: string): Promise<void> {
  const item = await tx.workItem.findUnique({ where: { id: itemId }, select: { orderId: true } });
  if (!item) throw notFound('item');
  await holdFor(tx, 'order', item.orderId);
}

/** The item that a part goes to or comes back from. Refused when its order takes no more work. */
export async function itemOfOpenOrder(tx: Tx, itemId: string) {
  const item = await tx.workItem.findUnique({
    where: { id: itemId },
    select: {
      id: true,
      orderId: true,
      position: true,
      title: true,
      order: { select: { number: true, ...orderFacts } },
    },
  });
  if (!item) throw notFound('item');
  const state = orderState(item.order);
  if (state !== 'here' && state !== 'ready_to_sign')
    throw new Refused(
      'AGAINST_RULE',
      `Order ${item.order.number} is ${state}: parts are issued to the work of an aircraft that is here.`,
      'itemId',
    );
  return item;
}

/** Units of a lot that are on an item now: issued, less what came back. */
export async function onItem(tx: Tx, lotId: string, itemId: string): Promise<number> {
  const { _sum } = await tx.stockMovement.aggregate({
    where: { lotId, itemId, kind: { in: ['issue', 'return'] } },
    _sum: { quantity: true },
  });
  return -(_sum.quantity?.toNumber() ?? 0);
}

/** The lot of a movement that was sent before under the same key; null where there is none. */
export async function movedBefore(
  tx: Tx,
  key: string | null,
  meant: { lotId: string; itemId: string | null; kind: MovementKind },
): Promise<string | null> {
  const known =
    key &&
    (await tx.stockMovement.findUnique({
      where: { id: key },
      select: { lotId: true, itemId: true, kind: true },
    }));
  if (!known) return null;
  if (known.lotId !== meant.lotId || known.itemId !== meant.itemId || known.kind !== meant.kind)
    throw new Refused(
      'CONFLICT',
      'This clientEventId was used before, for something else: needed is a new one.',
      'clientEventId',
    );
  return known.lotId;
}
