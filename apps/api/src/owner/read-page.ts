import { cautionsOn } from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { civilDay } from '../civil-day.ts';
import { Refused } from '../errors.ts';
import { contactStanding } from '../quoting/index.ts';
import { loadOffers, shownOffer } from './offers.ts';
import { loadOrder, shownOrder } from './order-part.ts';

/**
 * All that an owner's page shows, read inside the link's own transaction, so that it is one state of one order and
 * cannot be of another.
 */
export async function readPage(tx: Tx, contactId: string, now: Date) {
  const shop = await tx.shop.findFirstOrThrow({
    select: { name: true, place: true, timeZone: true, currency: true },
  });
  const today = civilDay(now, shop.timeZone);
  // The link's role sees the aircraft of its order or quote and no other.
  const aircraft = await tx.aircraft.findFirstOrThrow({
    select: { id: true, registration: true, model: { select: { maker: true, name: true } } },
  });
  const offers = await loadOffers(tx);
  const order = await loadOrder(tx);
  return {
    shop,
    aircraft: { registration: aircraft.registration, ...aircraft.model },
    you: await standingOf(tx, { aircraftId: aircraft.id, contactId, day: today }),
    offers: offers.flatMap((offer) => shownOffer(offer, today) ?? []),
    order: order && shownOrder(order, today),
    cautions: cautionsOn('owner_page').map(({ text }) => text),
  };
}

/** Who reads, and how far they may say yes: limit null where none was given, "0" for somebody who may not. */
async function standingOf(tx: Tx, asked: Parameters<typeof contactStanding>[1]) {
  try {
    const { name, limit } = await contactStanding(tx, asked);
    return { name, limit: limit === null ? null : `${limit}` };
  } catch (error) {
    // Somebody who sold their share still sees what they agreed to, and decides nothing any more.
    if (error instanceof Refused) return { name: null, limit: '0' };
    throw error;
  }
}
