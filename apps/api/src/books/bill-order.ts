import type { Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { priceList } from '../quoting/queries.ts';
import { orderState } from '../states.ts';
import { shopToday } from '../today.ts';
import { billableWork } from './billable-work.ts';
import { composeInvoice } from './compose-invoice.ts';
import { linesAtOurCost } from './lines-at-our-cost.ts';
import { shareOut } from './share-out.ts';
import { loadWorkToBill } from './work-to-bill.ts';

/** What an order comes to now, at its agreed prices: its invoices before they are kept, the customer's first. */
export async function billOrder(context: Context, orderId: string) {
  const { read } = context;
  const order = await loadWorkToBill(read, orderId);
  if (!order) throw notFound('order');
  const state = orderState(order);
  if (state === 'planned' || state === 'cancelled')
    throw new Refused(
      'AGAINST_RULE',
      `Order ${order.number} is ${state}: there is nothing to bill before ${order.aircraft.registration} has arrived for it.`,
    );
  const shop = await read.shop.findFirstOrThrow({
    select: { currency: true, billingStep: true, billingRounding: true },
  });
  const today = await shopToday(context);
  const prices = await priceList(read, shop.currency, today);
  const billedTime = { step: shop.billingStep.toFixed(), rounding: shop.billingRounding } as const;
  const composed = composeInvoice(
    billableWork(order, prices, billedTime, context.now()),
    linesAtOurCost(order, prices),
  );
  const shared = shareOut(composed, order.payers, prices.currency);
  return { order, state, shared, currency: prices.currency, today };
}
