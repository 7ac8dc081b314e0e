import type { Tx } from '@fairlead/database';
import type { HoursEstimate } from '@fairlead/labour';
import type { ShopModel } from '../../hindsight/index.ts';
import { orderFacts, orderState } from '../../states.ts';
import { drawWork, type WorkToDraw } from './draw-work.ts';
import { type MadePromise, makePromise } from './make-promise.ts';
import { missingParts, openItemFacts, openItems, toDraw } from './open-items.ts';
import { plannedArrival } from './promise-for-order.ts';
import { beginsAt } from './shop-ahead.ts';

export interface OfferToPromise {
  aircraftId: string;
  /** The order of a finding, whose open work comes with it; null for a visit. */
  orderId: string | null;
  estimates: readonly HoursEstimate[];
  parts: readonly { id: string; title: string; quantity: string }[];
  model: ShopModel;
  /** Civil day, midnight UTC, on which it is supposed to begin; null: as planned, else today. */
  beginsOn: Date | null;
}

/**
 * When an aircraft would be ready if this offer were accepted now: begun when the aircraft is planned to come, else today.
 * Which task needs a part is not said in an offer, so the longest is taken to wait for all that is not in the stores.
 */
export async function promiseForOffer(
  read: Tx,
  { aircraftId, orderId, estimates, parts, model, beginsOn }: OfferToPromise,
  now: Date,
): Promise<MadePromise> {
  const { timeZone } = await read.shop.findFirstOrThrow({ select: { timeZone: true } });
  const aircraft = await read.aircraft.findUniqueOrThrow({
    where: { id: aircraftId },
    select: { registration: true, model: { select: { maker: true, name: true } } },
  });
  const today = beginsAt(now, timeZone);
  const order = orderId
    ? await read.workOrder.findUniqueOrThrow({
        where: { id: orderId },
        select: {
          plannedFor: true,
          events: orderFacts.events,
          items: { orderBy: { position: 'asc' }, select: openItemFacts },
        },
      })
    : null;
  const here = order && orderState(order) !== 'planned';
  const comes = here
    ? null
    : await plannedArrival(read, {
        aircraftId,
        orderId,
        plannedFor: order?.plannedFor ?? null,
        now,
        timeZone,
      });

  // Today begins now; another day begins with the shop's day.
  const supposed =
    beginsOn !== null && +beginsOn > +today.day ? { day: beginsOn, minute: 0 } : null;

  const missing = await missingParts(read, parts, today);
  const wait = latestOf(missing);
  const longest = estimates.reduce<HoursEstimate | undefined>(
    (most, each) => (most && most.mean >= each.mean ? most : each),
    undefined,
  );
  const items = [
    ...estimates.map((estimate) => ({
      estimate,
      clocked: 0,
      wait: estimate === longest ? wait : null,
    })),
    ...openItems(order?.items ?? [], aircraft, { model, now, today }),
  ];
  return makePromise(read, {
    begins: supposed ?? comes ?? today,
    work: drawWork(toDraw(items)),
    orderId,
    modelNumber: model.number,
    now,
    timeZone,
  });
}

/** All that nobody knows of together, else what comes last. */
function latestOf(missing: readonly NonNullable<WorkToDraw['wait']>[]): WorkToDraw['wait'] {
  const unknown = missing.filter(({ until }) => until === null).map(({ words }) => words);
  if (unknown.length > 0) {
    const last = unknown.at(-1)!;
    const words = unknown.length < 2 ? last : `${unknown.slice(0, -1).join(', ')} and ${last}`;
    return { words, until: null };
  }
  return [...missing].sort((one, other) => (one.until! < other.until! ? 1 : -1))[0] ?? null;
}
