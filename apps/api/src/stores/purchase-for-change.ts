import type { Tx } from '@fairlead/database';
import { notFound } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { purchaseFacts, purchaseState } from './purchase-state.ts';

/** A purchase order with how it stands, held to the end of the transaction. */
export async function purchaseForChange(tx: Tx, orderId: string) {
  await holdFor(tx, 'purchase', orderId);
  return purchaseToSend(tx, orderId);
}

/** The same, only read. */
export async function purchaseToSend(tx: Tx, orderId: string) {
  const order = await tx.purchaseOrder.findUnique({
    where: { id: orderId },
    select: {
      id: true,
      number: true,
      supplier: true,
      supplierEmail: true,
      expectedOn: true,
      ...purchaseFacts,
      lines: {
        ...purchaseFacts.lines,
        select: {
          ...purchaseFacts.lines.select,
          unitCost: true,
          item: { select: { id: true, orderId: true } },
          part: { select: { id: true, title: true, number: true, unit: true } },
        },
      },
    },
  });
  if (!order) throw notFound('purchase order');
  return { ...order, state: purchaseState(order) };
}

/** How an order stands, in words for a sentence. */
export const stateWords = {
  draft: 'a draft',
  sent: 'sent',
  received_in_part: 'received in part',
  received: 'received',
  cancelled: 'cancelled',
} as const;
