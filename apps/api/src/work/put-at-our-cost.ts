import type { Tx } from '@fairlead/database';
import { refuseBilledToSeller } from '../billed-to-seller.ts';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { ourCostOf } from './at-our-cost.ts';
import { type OurCostSaid, refuseFirstJob } from './first-job.ts';
import { text } from './limits.ts';

export interface PutAtOurCostInput extends OurCostSaid {
  /** One item, or every item that the order has now. */
  itemId: string | null;
  orderId: string | null;
  reason: string;
}

/** Says that work is at the shop's own cost, and why; without a kind, that it is billed again. The clock and what is learned stay as they are. */
export async function putAtOurCost(context: Context, input: PutAtOurCostInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const { itemId, kind, putsRightId } = input;
  if ((itemId === null) === (input.orderId === null))
    throw new Refused('BAD_INPUT', 'Needed is one item or one order, and not both.', 'itemId');
  const reason = text(input.reason, 'reason', { least: 3, most: 500 });
  return context.write(async (tx) => {
    // load
    const of =
      itemId &&
      (await tx.workItem.findUnique({ where: { id: itemId }, select: { orderId: true } }));
    if (itemId && !of) throw notFound('item');
    const orderId = of ? of.orderId : (input.orderId ?? '');
    await holdFor(tx, 'invoices of order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: {
        number: true,
        aircraftId: true,
        events: { where: { kind: 'cancelled' }, select: { id: true } },
        items: {
          where: itemId ? { id: itemId } : {},
          orderBy: { position: 'asc' },
          select: {
            id: true,
            atOurCost: {
              orderBy: [{ at: 'desc' }, { id: 'desc' }],
              take: 1,
              select: { kind: true, putsRightId: true },
            },
          },
        },
        invoices: {
          where: {
            saleId: null,
            creditsId: null,
            issuedAt: { not: null },
            creditNotes: { none: { issuedAt: { not: null }, inPart: false } },
          },
          select: { number: true },
        },
      },
    });
    if (!order) throw notFound('order');
    // decide
    if (order.events.length > 0)
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} was cancelled: nothing of it is billed.`,
      );
    if (order.items.length === 0)
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} has no items that could be at the shop's own cost.`,
      );
    const [billed] = order.invoices;
    if (billed)
      throw new Refused(
        'CONFLICT',
        `Order ${order.number} is billed already, with invoice ${billed.number}: credit that first.`,
      );
    if (itemId) await refuseSellersWork(tx, orderId, itemId);
    await refuseFirstJob(
      tx,
      { kind, putsRightId },
      { aircraftId: order.aircraftId, itemIds: order.items.map(({ id }) => id) },
    );
    const changed = order.items.filter(
      (item) =>
        ourCostOf(item) !== kind || (item.atOurCost[0]?.putsRightId ?? null) !== putsRightId,
    );
    // save
    await tx.atOurCost.createMany({
      data: changed.map(({ id }) => ({
        itemId: id,
        ...{ kind, putsRightId, reason, at: context.now(), byId: personId },
      })),
    });
    return orderId;
  });
}

/** Of work that was all done before the aircraft was sold, who pays is settled by the seller's invoice. */
async function refuseSellersWork(tx: Tx, orderId: string, itemId: string): Promise<void> {
  const [stretch, movement] = await Promise.all([
    tx.stretch.aggregate({ where: { itemId }, _max: { startedAt: true } }),
    tx.stockMovement.aggregate({ where: { itemId, kind: 'issue' }, _max: { at: true } }),
  ]);
  const last = [stretch._max.startedAt, movement._max.at].flatMap((at) => at ?? []);
  if (last.length === 0) return;
  const lastAt = new Date(Math.max(...last.map(Number)));
  await refuseBilledToSeller(tx, orderId, [lastAt], 'Putting this work at the shop’s own cost');
}
