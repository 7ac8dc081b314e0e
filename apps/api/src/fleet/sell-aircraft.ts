import type { Tx } from '@fairlead/database';
import { dayBegins } from '../civil-day.ts';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { stopWork } from './stop-work.ts';

export interface SellAircraftInput {
  aircraftId: string;
  buyerId: string;
  /** The civil day on which it changed hands. */
  soldOn: Date;
  note: string | null;
}

const DAY_MS = 86_400_000;
const MOST_BACK = 366;

/**
 * Keeps that an aircraft changed hands. What the seller agreed to lapses, their links are taken back, what is not done is put off
 * until the new owner says yes, and what was done until then is theirs to be billed. The records go with the aircraft (14 CFR
 * 91.419).
 */
export async function sellAircraft(context: Context, input: SellAircraftInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const today = await shopToday(context);
  const note = givenText(input.note, 'note', { most: 500 });
  const { aircraftId, buyerId, soldOn } = input;
  const back = (today.getTime() - soldOn.getTime()) / DAY_MS;
  if (back < 0 || back > MOST_BACK)
    throw new Refused(
      'BAD_INPUT',
      `A sale on ${sayDay(soldOn)} was refused: needed is a day up to today, ${sayDay(today)}, and no more than a year ago.`,
      'soldOn',
    );
  const now = context.now();
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'sale of aircraft', aircraftId);
    const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
    const aircraft = await tx.aircraft.findUnique({
      where: { id: aircraftId },
      select: {
        registration: true,
        contacts: { where: { until: null } },
        sales: { orderBy: { soldOn: 'desc' }, take: 1, include: { buyer: true } },
      },
    });
    if (!aircraft) throw notFound('aircraft');
    const buyer = await tx.contact.findUnique({
      where: { id: buyerId },
      select: { id: true, name: true },
    });
    if (!buyer) throw notFound('contact');
    // decide
    const seller = aircraft.contacts.find(({ capacity }) => capacity === 'owner');
    if (!seller)
      throw new Refused('AGAINST_RULE', `${aircraft.registration} has no owner who could sell it.`);
    if (seller.contactId === buyerId)
      throw new Refused(
        'CONFLICT',
        `${aircraft.registration} is owned by ${buyer.name} already: choose who bought it.`,
        'buyerId',
      );
    const [last] = aircraft.sales;
    if (last && soldOn < last.soldOn)
      throw new Refused(
        'AGAINST_RULE',
        `${aircraft.registration} was sold to ${last.buyer.name} on ${sayDay(last.soldOn)}: a sale on ${sayDay(soldOn)} cannot follow it.`,
        'soldOn',
      );
    const endOfDay = dayBegins(soldOn, timeZone, 1);
    const cutAt = endOfDay < now ? endOfDay : now;
    // save
    const { id: saleId } = await tx.aircraftSale.create({
      data: {
        ...{ aircraftId, sellerId: seller.contactId, buyerId, soldOn, cutAt, note },
        ...{ at: now, byId: personId },
      },
      select: { id: true },
    });
    await stopWork(tx, { aircraftId, saleId, soldOn, now, personId });
    await handOver(tx, { aircraftId, sellerId: seller.contactId, buyerId, soldOn, now });
    return aircraftId;
  });
}

/** The seller's standing ends with the day before, and so does that of who paid for them; the buyer's begins. */
async function handOver(
  tx: Tx,
  sale: { aircraftId: string; sellerId: string; buyerId: string; soldOn: Date; now: Date },
): Promise<void> {
  const { aircraftId, sellerId, buyerId, soldOn, now } = sale;
  const standing = await tx.aircraftContact.findMany({
    where: {
      aircraftId,
      until: null,
      OR: [{ contactId: sellerId }, { capacity: { in: ['owner', 'payer'] } }],
      NOT: { contactId: buyerId },
    },
    select: { id: true, contactId: true },
  });
  await tx.aircraftContact.updateMany({
    where: { id: { in: standing.map(({ id }) => id) } },
    data: { until: new Date(soldOn.getTime() - DAY_MS) },
  });
  const owner = { aircraftId, contactId: buyerId, capacity: 'owner' } as const;
  const known = await tx.aircraftContact.findFirst({ where: owner, select: { id: true } });
  if (known)
    await tx.aircraftContact.update({
      where: { id: known.id },
      data: { since: soldOn, until: null },
      select: { id: true },
    });
  else await tx.aircraftContact.create({ data: { ...owner, since: soldOn }, select: { id: true } });
  const quotes = await tx.quote.findMany({ where: { aircraftId }, select: { id: true } });
  await tx.ownerLink.updateMany({
    where: {
      revokedAt: null,
      contactId: { in: [...new Set([sellerId, ...standing.map(({ contactId }) => contactId)])] },
      OR: [{ order: { aircraftId } }, { quoteId: { in: quotes.map(({ id }) => id) } }],
    },
    data: { revokedAt: now },
  });
}
