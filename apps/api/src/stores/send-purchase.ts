import type { PurchaseChannel } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { mailPurchase } from './mail-purchase.ts';
import { purchaseForChange, stateWords } from './purchase-for-change.ts';

export interface SendPurchaseInput {
  orderId: string;
  channel: PurchaseChannel;
}

/**
 * Records that an order went to its supplier; by e-mail, it mails it. From now on its parts are on order, and promises to owners count on the day
 * that it is expected.
 */
export async function sendPurchase(context: Context, input: SendPurchaseInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  return context.write(async (tx) => {
    // load
    const order = await purchaseForChange(tx, input.orderId);
    // decide
    if (order.state !== 'draft')
      throw new Refused(
        'AGAINST_RULE',
        `Purchase order ${order.number} is ${stateWords[order.state]}: only a draft is sent.`,
        'orderId',
      );
    if (input.channel === 'email' && order.supplierEmail === '')
      throw new Refused(
        'AGAINST_RULE',
        `Purchase order ${order.number} has no address to be e-mailed to: say how else it went, or draft it again with one.`,
        'channel',
      );
    // save
    const at = context.now();
    await tx.purchaseEvent.create({
      data: { orderId: order.id, kind: 'sent', channel: input.channel, at, byId: personId },
      select: { id: true },
    });
    if (input.channel === 'email') await mailPurchase(tx, order, { personId, now: at });
    if (order.expectedOn)
      await tx.expectation.createMany({
        data: order.lines.map(({ part }) => ({
          partId: part.id,
          what: part.title,
          expectedOn: order.expectedOn,
          saidBy: order.supplier,
          notedAt: at,
          notedById: personId,
        })),
      });
    return order.id;
  });
}
