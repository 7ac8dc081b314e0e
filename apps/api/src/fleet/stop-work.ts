import type { Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { itemFacts, itemState, orderState } from '../states.ts';

/**
 * Every order of an aircraft that goes on is cut where it was sold: what is not done is put off, since nobody has agreed to it any
 * more.
 *
 * @throws Refused while somebody's clock runs on it
 */
export async function stopWork(
  tx: Tx,
  sale: { aircraftId: string; saleId: string; soldOn: Date; now: Date; personId: string },
): Promise<void> {
  const { aircraftId, saleId, soldOn, now, personId } = sale;
  const orders = await tx.workOrder.findMany({
    where: { aircraftId, events: { none: { kind: { in: ['closed', 'cancelled'] } } } },
    orderBy: { number: 'asc' },
    select: {
      id: true,
      number: true,
      events: { select: { kind: true } },
      items: {
        orderBy: { position: 'asc' },
        select: {
          ...itemFacts,
          ...{ id: true, position: true, title: true },
          stretches: { select: { id: true, endedAt: true, person: { select: { name: true } } } },
        },
      },
    },
  });
  const going = orders.filter((order) =>
    ['planned', 'here', 'ready_to_sign'].includes(orderState(order)),
  );
  for (const { id, number, items } of going) {
    await holdFor(tx, 'order', id);
    const running = items.flatMap(({ position, stretches }) =>
      stretches
        .filter(({ endedAt }) => endedAt === null)
        .map(({ person }) => `${person.name} on item ${position}`),
    );
    if (running.length > 0)
      throw new Refused(
        'CONFLICT',
        `The sale cannot be recorded while a clock runs on order ${number}: ${running.join(', ')}. Stop it first, so that it is plain what was done until then.`,
      );
    const left = items.filter((item) => ['open', 'in_work', 'waiting'].includes(itemState(item)));
    await tx.itemEvent.createMany({
      data: left.map((item) => ({
        itemId: item.id,
        kind: 'put_off' as const,
        note: `Sold on ${sayDay(soldOn)}: what the seller agreed to lapsed. It goes on when the new owner says yes.`,
        ...{ at: now, byId: personId },
      })),
    });
    await tx.aircraftSaleOrder.create({ data: { saleId, orderId: id }, select: { id: true } });
  }
}
