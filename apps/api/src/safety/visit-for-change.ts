import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { refuseOutsideVisit } from '../work/index.ts';

/**
 * An order whose aircraft is here, and one of its items where one is named. Held to the end of the transaction, as
 * signing holds it: nothing is opened while somebody signs that all is closed.
 */
export async function visitForChange(tx: Tx, orderId: string, itemId: string | null = null) {
  await holdFor(tx, 'order', orderId);
  const order = await tx.workOrder.findUnique({
    where: { id: orderId },
    select: {
      id: true,
      number: true,
      inspection: true,
      aircraftId: true,
      aircraft: { select: { registration: true } },
      events: { select: { kind: true } },
    },
  });
  if (!order) throw notFound('order');
  refuseOutsideVisit({ order });
  if (itemId === null) return order;
  const item = await tx.workItem.findUnique({
    where: { id: itemId },
    select: { orderId: true },
  });
  if (!item) throw notFound('item');
  if (item.orderId !== orderId)
    throw new Refused(
      'BAD_INPUT',
      `The item is of another order than ${order.number}: needed is one of that order, or none.`,
      'itemId',
    );
  return order;
}
