import type { Tx } from '@fairlead/database';
import { modelInForce } from '../../hindsight/index.ts';
import { appointedLook } from '../../safety/queries.ts';
import { findingFacts, findingState, orderFacts, orderState } from '../../states.ts';
import { drawWork, noHands } from './draw-work.ts';
import { type MadePromise, makePromise } from './make-promise.ts';
import { openItemFacts, openItems, toDraw } from './open-items.ts';
import { type Begins, beginsAt } from './shop-ahead.ts';

const facts = {
  id: true,
  plannedFor: true,
  events: orderFacts.events,
  findings: { orderBy: { number: 'asc' }, select: { number: true, ...findingFacts } },
  items: { orderBy: { position: 'asc' }, select: openItemFacts },
  aircraft: {
    select: { id: true, registration: true, model: { select: { maker: true, name: true } } },
  },
} as const;

/**
 * When an order's aircraft is ready, from what is left now; null where the order is over. One that is still to come begins
 * when it is planned for, and now where nobody has said.
 */
export async function promiseForOrder(
  read: Tx,
  orderId: string,
  now: Date,
): Promise<MadePromise | null> {
  const order = await read.workOrder.findUnique({ where: { id: orderId }, select: facts });
  if (!order || !['planned', 'here', 'ready_to_sign'].includes(orderState(order))) return null;
  const { timeZone } = await read.shop.findFirstOrThrow({ select: { timeZone: true } });
  const model = await modelInForce(read);
  const today = beginsAt(now, timeZone);
  const comes =
    orderState(order) === 'planned'
      ? await plannedArrival(read, {
          aircraftId: order.aircraft.id,
          orderId,
          now,
          timeZone,
          plannedFor: order.plannedFor,
        })
      : null;
  const items = openItems(order.items, order.aircraft, { model, now, today });
  const look = await appointedLook(read, orderId, now);
  const promise = await makePromise(read, {
    begins: comes ?? today,
    work: [
      ...drawWork(toDraw(items)),
      ...(look ? [noHands('the leak check', look, timeZone)] : []),
    ],
    orderId,
    modelNumber: model.number,
    now,
    timeZone,
  });
  const undecided = order.findings.filter((finding) =>
    ['noted', 'assessed', 'offered'].includes(findingState(finding, today.day)),
  );
  return { ...promise, sentence: `${promise.sentence}${leftOut(undecided)}` };
}

/** What was found and not agreed yet is no work of the order: it comes on top, and the reader must know. */
function leftOut(findings: readonly { number: number }[]): string {
  const numbers = findings.map(({ number }) => number);
  if (numbers.length === 0) return '';
  return numbers.length === 1
    ? ` Finding ${numbers[0]} is not agreed and not counted.`
    : ` Findings ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)} are not agreed and not counted.`;
}

/** When an aircraft that is not here is planned to come; null where nobody has said, or that time has passed. */
export async function plannedArrival(
  read: Tx,
  asked: {
    aircraftId: string;
    orderId: string | null;
    plannedFor: Date | null;
    now: Date;
    timeZone: string;
  },
): Promise<Begins | null> {
  const { aircraftId, orderId, plannedFor, now, timeZone } = asked;
  const stay = plannedFor
    ? null
    : await read.stay.findFirst({
        where: {
          kind: 'planned',
          aircraftId,
          startsAt: { gt: now },
          OR: [{ orderId: null }, ...(orderId ? [{ orderId }] : [])],
        },
        orderBy: { startsAt: 'asc' },
        select: { startsAt: true },
      });
  const comes = plannedFor ?? stay?.startsAt ?? null;
  return comes && comes > now ? beginsAt(comes, timeZone) : null;
}
