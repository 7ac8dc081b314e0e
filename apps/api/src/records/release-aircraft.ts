import type { ReleaseOutcome } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { orderState } from '../states.ts';
import { shopToday } from '../today.ts';
import { holdForSigning, loadOrderToSign } from './order-to-sign.ts';
import { releaseHindrances } from './release-hindrances.ts';

export interface ReleaseAircraftInput {
  orderId: string;
  outcome: ReleaseOutcome;
}

/**
 * Records that the aircraft is released: with its signed entries airworthy, or with the list given. It approves
 * nothing itself: the entries do, which people signed.
 */
export async function releaseAircraft(
  context: Context,
  { orderId, outcome }: ReleaseAircraftInput,
): Promise<string> {
  const { personId } = await allow(context, 'inspector');
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdForSigning(tx, orderId);
    const order = await loadOrderToSign(tx, orderId);
    if (!order) throw notFound('order');
    // decide
    const released = order.events.find(({ kind }) => kind === 'released');
    if (released?.outcome === outcome) return order.id;
    const { registration } = order.aircraft;
    const state = orderState(order);
    if (released || (state !== 'here' && state !== 'ready_to_sign'))
      throw new Refused(
        'CONFLICT',
        `${registration} cannot be released from order ${order.number}: ${released ? 'it was released already, with another outcome' : `that is ${state}`}.`,
      );
    const [first, ...more] = releaseHindrances(order, outcome, today);
    if (first)
      throw new Refused(
        'AGAINST_RULE',
        `${registration} cannot be released: ${first}.${more.length > 0 ? ` ${more.length} more: ${more.slice(0, 5).join('; ')}.` : ''}`,
      );
    // save
    await tx.orderEvent.create({
      data: { orderId: order.id, kind: 'released', outcome, at: context.now(), byId: personId },
    });
    return order.id;
  });
}
