import { refuseBilledToSeller } from '../billed-to-seller.ts';
import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { refuseBilled } from './refuse-billed.ts';

/** Keeps that a payer does not pay after all; what they would have paid stays with the customer. Ended before, it answers as then. */
export async function endPayerShare(
  context: Context,
  input: { shareId: string; reason: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const reason = givenText(input.reason, 'reason', { least: 3, most: 500 });
  return context.write(async (tx) => {
    const share = await tx.payerShare.findUnique({
      where: { id: input.shareId },
      select: { id: true, at: true, orderId: true, order: { select: { number: true } } },
    });
    if (!share) throw notFound('share');
    await holdFor(tx, 'invoices of order', share.orderId);
    const ended = await tx.payerShareEnd.findFirst({
      where: { shareId: share.id },
      select: { id: true },
    });
    if (ended) return share.id;
    await refuseBilledToSeller(tx, share.orderId, [share.at], 'Ending this share');
    await refuseBilled(tx, share.orderId, share.order.number);
    await tx.payerShareEnd.create({
      data: { shareId: share.id, reason, at: context.now(), byId: personId },
      select: { id: true },
    });
    return share.id;
  });
}
