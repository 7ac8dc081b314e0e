import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey, givenQuantity, givenText } from '../given.ts';
import { orderFacts, orderState } from '../states.ts';
import { lotForChange } from './lot-for-change.ts';
import { availableOf, reservedFacts, reservedFor } from './reserved.ts';

export interface ReservePartInput {
  lotId: string;
  orderId: string;
  quantity: string;
  reason: string | null;
  clientEventId: string | null;
}

/** Keeps units of a lot for an order that is planned or here. Never more than lies free. */
export const reservePart = (context: Context, input: ReservePartInput) =>
  keep(context, 'reserved', input);

/** Gives free what was reserved for an order, whole or in part. */
export const releaseReserved = (context: Context, input: ReservePartInput) =>
  keep(context, 'released', input);

async function keep(
  context: Context,
  kind: 'reserved' | 'released',
  input: ReservePartInput,
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  const reason = givenText(input.reason, 'reason', { most: 300 });
  return context.write(async (tx) => {
    // load
    const lot = await lotForChange(tx, input.lotId);
    if (await keptBefore(tx, key, { kind, lotId: lot.id, orderId: input.orderId })) return lot.id;
    const order = await tx.workOrder.findUnique({
      where: { id: input.orderId },
      select: { id: true, number: true, ...orderFacts },
    });
    if (!order) throw notFound('order');
    const facts = await tx.lot.findUniqueOrThrow({ where: { id: lot.id }, select: reservedFacts });
    const state = orderState(order);
    const { available } = availableOf(facts);
    const own = reservedFor(facts).get(order.id)?.toFixed() ?? '0';
    // decide
    if (!['planned', 'here', 'ready_to_sign'].includes(state))
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} is ${state}: parts are kept for an order that is planned or here, and its end has given free what was kept.`,
        'orderId',
      );
    if (kind === 'reserved' && available.lessThan(quantity))
      throw new Refused(
        'AGAINST_RULE',
        `${quantity} of ${lot.name} cannot be reserved: it holds ${lot.onHand.toFixed()} (${lot.part.unit}), of which ${available.isNegative() ? 0 : available.toFixed()} are free.`,
        'quantity',
      );
    if (kind === 'released' && Number(quantity) > Number(own))
      throw new Refused(
        'AGAINST_RULE',
        `${quantity} of ${lot.name} cannot be given free by order ${order.number}: ${own} are reserved for it.`,
        'quantity',
      );
    // save
    await tx.reservationEvent.create({
      data: {
        ...(key && { id: key }),
        lotId: lot.id,
        orderId: order.id,
        kind,
        quantity,
        reason,
        at: context.now(),
        byId: personId,
      },
      select: { id: true },
    });
    return lot.id;
  });
}

async function keptBefore(
  tx: Tx,
  key: string | null,
  meant: { kind: 'reserved' | 'released'; lotId: string; orderId: string },
): Promise<boolean> {
  const known = key && (await tx.reservationEvent.findUnique({ where: { id: key } }));
  if (!known) return false;
  if (known.kind !== meant.kind || known.lotId !== meant.lotId || known.orderId !== meant.orderId)
    throw new Refused(
      'CONFLICT',
      'This clientEventId was used before, for something else: needed is a new one.',
      'clientEventId',
    );
  return true;
}
