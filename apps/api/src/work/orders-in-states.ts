import type { Prisma, Tx } from '@fairlead/database';
import { type OrderState, orderFacts, orderState } from '../states.ts';

const happened = (
  kind: 'arrived' | 'released' | 'closed' | 'cancelled',
): Prisma.WorkOrderWhereInput => ({ events: { some: { kind } } });
const not = (
  ...kinds: ('arrived' | 'released' | 'closed' | 'cancelled')[]
): Prisma.WorkOrderWhereInput => ({ events: { none: { kind: { in: kinds } } } });

/** Aircraft in the shop: arrived, and their order not ended. */
export const ordersHere: Prisma.WorkOrderWhereInput = {
  AND: [happened('arrived'), not('released', 'closed', 'cancelled')],
};

const byEvents: Record<
  Exclude<OrderState, 'here' | 'ready_to_sign'>,
  Prisma.WorkOrderWhereInput
> = {
  planned: not('arrived', 'released', 'closed', 'cancelled'),
  released: { AND: [happened('released'), not('closed', 'cancelled')] },
  closed: { AND: [happened('closed'), not('cancelled')] },
  cancelled: happened('cancelled'),
};

/**
 * The condition that an order is in one of some states. Most states show in its events; whether an order that is
 * here is ready to sign depends on its items, so those, as many as the hangar holds, are looked at first.
 */
export async function ordersInStates(
  read: Tx,
  states: readonly OrderState[],
): Promise<Prisma.WorkOrderWhereInput> {
  const wanted = new Set(states);
  const either: Prisma.WorkOrderWhereInput[] = [];
  for (const state of wanted)
    if (state !== 'here' && state !== 'ready_to_sign') either.push(byEvents[state]);
  if (wanted.has('here') && wanted.has('ready_to_sign')) either.push(ordersHere);
  else if (wanted.has('here') || wanted.has('ready_to_sign')) {
    const present = await read.workOrder.findMany({
      where: ordersHere,
      select: { id: true, ...orderFacts },
    });
    either.push({
      id: { in: present.filter((order) => wanted.has(orderState(order))).map(({ id }) => id) },
    });
  }
  return { OR: either };
}
