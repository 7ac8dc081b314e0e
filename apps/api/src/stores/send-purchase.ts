import type { IssueException, PurchaseChannel } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdAllFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { orderedDespite } from './issue-despite.ts';
import { mailPurchase } from './mail-purchase.ts';
import { boughtForWork, pastByPurchase } from './past-by-purchase.ts';
import { purchaseForChange, stateWords } from './purchase-for-change.ts';
import { workToBuyFor } from './work-to-buy-for.ts';

export interface SendPurchaseInput {
  orderId: string;
  channel: PurchaseChannel;
  /** What whoever sends knows of, and sends against for their reason. */
  despite?: readonly IssueException[];
  reason?: string | null;
}

/**
 * Records that an order went to its supplier; by e-mail, it mails it. From now on its parts are on order, and promises to owners count on the day
 * that it is expected. What is bought for work is held against what its owner agreed to, as an issue is: past it, it goes only by the
 * reason of whoever sends it, kept under their name.
 */
export async function sendPurchase(context: Context, input: SendPurchaseInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const reason = givenText(input.reason ?? null, 'reason', { most: 300 });
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    const order = await purchaseForChange(tx, input.orderId);
    const work = boughtForWork(order.lines);
    await holdAllFor(
      tx,
      'order',
      work.map(({ item }) => item.orderId),
    );
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
    await workToBuyFor(
      tx,
      work.map(({ item }) => ({ itemId: item.id })),
    );
    const at = context.now();
    const past = await pastByPurchase(tx, order.lines, { day: today, now: at });
    const asked = { despite: input.despite ?? [], reason };
    const despite = past.flatMap((each) => orderedDespite(each, order.number, asked));
    // save
    await tx.purchaseEvent.create({
      data: {
        ...{ orderId: order.id, kind: 'sent', channel: input.channel, at, byId: personId },
        ...(despite.length > 0 && { despite: [...new Set(despite)], reason }),
      },
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
