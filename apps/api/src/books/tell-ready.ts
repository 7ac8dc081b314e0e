import type { Channel } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayMinute } from '../given.ts';
import { holdFor } from '../hold.ts';
import { orderFacts, orderState } from '../states.ts';

export interface TellReadyInput {
  orderId: string;
  /** Who was told. */
  told: string;
  channel: Channel;
  /** Null: now. */
  toldAt: Date | null;
}

const YEAR_MS = 366 * 86_400_000;

/** Keeps who was told, and when, that an aircraft is ready to be fetched. The first time counts; told again, it is one more fact. */
export async function tellReady(context: Context, input: TellReadyInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const told = givenText(input.told, 'told', { least: 2, most: 120 });
  const now = context.now();
  const toldAt = input.toldAt ?? now;
  if (toldAt.getTime() > now.getTime() + 60_000 || toldAt.getTime() < now.getTime() - YEAR_MS)
    throw new Refused(
      'BAD_INPUT',
      `toldAt is ${sayMinute(toldAt)}: needed is a time within the last year, up to now, ${sayMinute(now)}.`,
      'toldAt',
    );
  return context.write(async (tx) => {
    const { orderId, channel } = input;
    await holdFor(tx, 'order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: { number: true, ...orderFacts },
    });
    if (!order) throw notFound('order');
    const state = orderState(order);
    if (state !== 'released' && state !== 'closed')
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} is ${state.replace(/_/g, ' ')}: the aircraft is ready when its work is signed for.`,
      );
    await tx.readyNotice.create({
      data: { orderId, told, channel, toldAt, at: now, byId: personId },
      select: { id: true },
    });
    return orderId;
  });
}
