import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { orderFacts, orderState } from '../states.ts';

export interface HandBackInput {
  orderId: string;
  /** The things that are given back now. */
  returned: readonly string[];
}

/** Records that things which came with the aircraft were given back. What is not named stays here. */
export async function handBack(
  context: Context,
  { orderId, returned }: HandBackInput,
): Promise<string> {
  await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  if (returned.length > 100)
    throw new Refused(
      'BAD_INPUT',
      `returned has ${returned.length} entries: at most 100.`,
      'returned',
    );
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: { id: true, received: { select: { id: true, returnedAt: true } } },
    });
    if (!order) throw notFound('order');
    // decide
    const known = new Map(order.received.map((thing) => [thing.id, thing]));
    if (returned.some((id) => !known.has(id)))
      throw notFound('thing among those received with this order');
    const now = returned.filter((id) => !known.get(id)?.returnedAt);
    // save
    await tx.receivedThing.updateMany({
      where: { id: { in: now } },
      data: { returnedAt: context.now() },
    });
    return order.id;
  });
}

/** Closes a released order when everything that came with the aircraft was given back. An unpaid invoice keeps nothing. */
export async function closeOrder(
  context: Context,
  { orderId }: { orderId: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: {
        id: true,
        number: true,
        received: { select: { what: true, returnedAt: true } },
        ...orderFacts,
      },
    });
    if (!order) throw notFound('order');
    // decide
    const state = orderState(order);
    if (state === 'closed') return order.id;
    if (state !== 'released')
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} cannot be closed: it is ${state.replace(/_/g, ' ')}; needed is one that is released.`,
      );
    const kept = order.received
      .filter(({ returnedAt }) => !returnedAt)
      .map(({ what }) => `“${what}”`);
    if (kept.length > 0)
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} cannot be closed: ${kept.slice(0, 10).join(', ')}${kept.length > 10 ? ` and ${kept.length - 10} more` : ''} came with the aircraft and ${kept.length === 1 ? 'is' : 'are'} not handed back.`,
      );
    // save
    await tx.orderEvent.create({
      data: { orderId: order.id, kind: 'closed', at: context.now(), byId: personId },
    });
    return order.id;
  });
}
