import type { Tx } from '@fairlead/database';
import { notFound } from '../errors.ts';
import { itemForChange, needState } from '../work/index.ts';
import { visitForChange } from './visit-for-change.ts';

/**
 * An item that somebody still works at, on an order whose aircraft is here. Both are held, in the order in which
 * everybody holds them. What is done may still be added to, until an inspector has looked at it.
 */
export async function itemOnVisit(tx: Tx, itemId: string, action: string) {
  const found = await tx.workItem.findUnique({
    where: { id: itemId },
    select: { orderId: true },
  });
  if (!found) throw notFound('item');
  await visitForChange(tx, found.orderId);
  const item = await itemForChange(tx, itemId);
  await needState(tx, item, action, 'open', 'in_work', 'waiting', 'done');
  return item;
}
