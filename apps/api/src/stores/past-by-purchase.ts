import type { Tx } from '@fairlead/database';
import { asOnOrder } from '../on-order.ts';
import { type BeyondWithPart, beyondWithParts } from '../work/index.ts';
import type { purchaseForChange } from './purchase-for-change.ts';

type Lines = Awaited<ReturnType<typeof purchaseForChange>>['lines'];

/** Lines that are bought for work, which they name. */
export const boughtForWork = (lines: Lines) =>
  lines.flatMap(({ item, ...line }) => (item ? [{ ...line, item }] : []));

/**
 * How far each order of work would go past what its owner agreed to by a purchase order that is not sent yet: what its lines would be
 * billed at, with all that is at the work and on the way to it. Those that stay within are left out.
 *
 * Whoever sends holds the orders of work before.
 */
export async function pastByPurchase(
  tx: Tx,
  lines: Lines,
  { day, now }: { day: Date; now: Date },
): Promise<(BeyondWithPart & { orderId: string })[]> {
  const coming = await asOnOrder(tx, boughtForWork(lines));
  const past: (BeyondWithPart & { orderId: string })[] = [];
  for (const orderId of [...new Set(coming.map((each) => each.orderId))].sort()) {
    const own = coming
      .filter((each) => each.orderId === orderId)
      .map((each) => ({ ...each, lineId: null }));
    const beyond = await beyondWithParts(tx, { orderId, day, now }, own);
    if (beyond) past.push({ ...beyond, orderId });
  }
  return past;
}
