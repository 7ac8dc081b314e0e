import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { orderFacts, orderState } from '../states.ts';
import type { HeldQuote } from './newest-revision.ts';

export interface Opening {
  /** Null: the owner, on their own page. */
  openedById: string | null;
  openedAt: Date;
}

/**
 * Turns an agreed quote into work: a new order for a visit, correcting items on the order of a
 * finding. Every line with a task becomes a work item, in the order in which it was quoted.
 */
export async function openWork(tx: Tx, quote: HeldQuote, opening: Opening): Promise<void> {
  const lines = await tx.quoteLine.findMany({
    where: { revisionId: quote.newest.id, taskId: { not: null } },
    orderBy: { position: 'asc' },
    select: { id: true, title: true, accessId: true, task: true },
  });
  const { orderId, after } = quote.orderId
    ? await joinOrder(tx, quote.orderId)
    : await openOrder(tx, quote, opening);
  await tx.workItem.createMany({
    data: lines.flatMap(({ id, title, accessId, task }, index) =>
      task
        ? [
            {
              orderId,
              position: after + index + 1,
              taskId: task.id,
              findingId: quote.findingId,
              quoteLineId: id,
              title,
              jasc: task.jasc,
              critical: task.critical,
              cautions: task.cautions,
              reference: task.reference,
              checklist: task.checklist,
              plannedAccessId: accessId,
              openedAt: opening.openedAt,
            },
          ]
        : [],
    ),
  });
}

interface Place {
  orderId: string;
  /** Position of the last item that is there already. */
  after: number;
}

async function openOrder(tx: Tx, quote: HeldQuote, opening: Opening): Promise<Place> {
  const { id: orderId } = await tx.workOrder.create({
    data: {
      aircraftId: quote.aircraftId,
      title: quote.title,
      inspection: quote.package?.inspection ?? null,
      ...opening,
    },
    select: { id: true },
  });
  await tx.quote.update({ where: { id: quote.id }, data: { orderId }, select: { id: true } });
  return { orderId, after: 0 };
}

/** The order is held with its quote, so two findings agreed at once get different positions. */
async function joinOrder(tx: Tx, orderId: string): Promise<Place> {
  const order = await tx.workOrder.findUnique({
    where: { id: orderId },
    select: { number: true, ...orderFacts },
  });
  if (!order) throw notFound('order');
  const state = orderState(order);
  if (!['planned', 'here', 'ready_to_sign'].includes(state))
    throw new Refused(
      'AGAINST_RULE',
      `Order ${order.number} is ${state}: nothing can be added to it. Make a quote for a new visit.`,
    );
  const { _max } = await tx.workItem.aggregate({ where: { orderId }, _max: { position: true } });
  return { orderId, after: _max.position ?? 0 };
}
