import type { Tx } from '@fairlead/database';
import { nothing } from '@fairlead/money';
import { refuseBilledToSeller } from '../billed-to-seller.ts';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { priceCharges, priceList, type WantedCharge } from '../quoting/queries.ts';
import { shopToday } from '../today.ts';
import { refuseBilled } from './refuse-billed.ts';

export interface KeptCharge {
  orderId: string;
  wanted: WantedCharge;
  today: Date;
  now: Date;
  personId: string;
  /** Of storage: for so many days. */
  storageDays?: number;
}

/** Keeps a charge of an order within a transaction: it is priced as one of a quote is, and needs the owner's yes like other work. */
export async function keepOrderCharge(tx: Tx, kept: KeptCharge): Promise<string> {
  const { orderId, wanted, today, now, personId, storageDays } = kept;
  // load
  await holdFor(tx, 'invoices of order', orderId);
  const order = await tx.workOrder.findUnique({
    where: { id: orderId },
    select: { number: true, events: { where: { kind: 'cancelled' }, select: { id: true } } },
  });
  if (!order) throw notFound('order');
  // decide
  if (order.events.length > 0)
    throw new Refused(
      'AGAINST_RULE',
      `Order ${order.number} was cancelled: nothing is charged on it.`,
    );
  if (wanted.kind === 'supplies' && wanted.percent !== null)
    throw new Refused(
      'BAD_INPUT',
      'Shop supplies beside a quote have no labour that they are a share of: needed is a price.',
      'percent',
    );
  await refuseBilled(tx, orderId, order.number);
  const { currency } = await tx.shop.findFirstOrThrow({ select: { currency: true } });
  const prices = await priceList(tx, currency, today);
  const [priced] = priceCharges([wanted], nothing, prices);
  if (!priced) throw new Refused('BAD_INPUT', 'No charge was given.');
  // save
  const { kind, title, category, price, cost, percent } = priced;
  const { id } = await tx.orderCharge.create({
    data: {
      ...{ orderId, kind, title, category, amountMinor: price, costMinor: cost, percent },
      ...{ at: now, byId: personId, storageDays: storageDays ?? null },
    },
    select: { id: true },
  });
  return id;
}

/** Charges something on an order besides what was quoted: freight, a call-out, what somebody else bills. */
export async function addOrderCharge(
  context: Context,
  input: { orderId: string; charge: WantedCharge },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const today = await shopToday(context);
  return context.write((tx) =>
    keepOrderCharge(tx, {
      ...{ orderId: input.orderId, wanted: input.charge, today },
      ...{ now: context.now(), personId },
    }),
  );
}

/** Takes a charge back, with the reason. Taken back before, it answers as then. */
export async function endOrderCharge(
  context: Context,
  input: { chargeId: string; reason: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const reason = givenText(input.reason, 'reason', { least: 3, most: 500 });
  return context.write(async (tx) => {
    const charge = await tx.orderCharge.findUnique({
      where: { id: input.chargeId },
      select: {
        id: true,
        title: true,
        at: true,
        orderId: true,
        order: { select: { number: true } },
      },
    });
    if (!charge) throw notFound('charge');
    await holdFor(tx, 'invoices of order', charge.orderId);
    const ended = await tx.orderChargeEnd.findFirst({
      where: { chargeId: charge.id },
      select: { id: true },
    });
    if (ended) return charge.id;
    await refuseBilledToSeller(tx, charge.orderId, [charge.at], `Taking back “${charge.title}”`);
    await refuseBilled(tx, charge.orderId, charge.order.number);
    await tx.orderChargeEnd.create({
      data: { chargeId: charge.id, reason, at: context.now(), byId: personId },
      select: { id: true },
    });
    return charge.id;
  });
}
