import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { purchaseForChange, stateWords } from './purchase-for-change.ts';
import { openOf } from './purchase-state.ts';

/**
 * The line of a purchase order that a delivery is of, its order held.
 *
 * @throws Refused where nothing of it is expected: not sent, cancelled, another part, or more than is still to come
 */
export async function lineToReceive(
  tx: Tx,
  { lineId, partId, quantity }: { lineId: string; partId: string; quantity: string },
): Promise<string> {
  const found = await tx.purchaseLine.findUnique({
    where: { id: lineId },
    select: { orderId: true },
  });
  if (!found) throw notFound('line of a purchase order');
  const order = await purchaseForChange(tx, found.orderId);
  const line = order.lines.find(({ id }) => id === lineId);
  if (!line) throw notFound('line of a purchase order');
  if (order.state === 'draft' || order.state === 'cancelled')
    throw new Refused(
      'AGAINST_RULE',
      `Purchase order ${order.number} is ${stateWords[order.state]}: nothing is expected of it. Receive the delivery without it.`,
      'purchaseLineId',
    );
  if (line.part.id !== partId)
    throw new Refused(
      'BAD_INPUT',
      `That line of purchase order ${order.number} is of ${line.part.number}, and another part was given: needed is the line of the part that came.`,
      'purchaseLineId',
    );
  const open = openOf(line);
  if (open.lessThan(quantity))
    throw new Refused(
      'AGAINST_RULE',
      `${quantity} of ${line.part.title} are more than purchase order ${order.number} still expects, which is ${open.toFixed()} (${line.part.unit}): receive what is beyond it as a delivery of its own.`,
      'quantity',
    );
  return line.id;
}
