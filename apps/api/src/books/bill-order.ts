import { billedTimeColumns, billedTimeOf } from '../billed-time.ts';
import type { Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { priceList } from '../quoting/queries.ts';
import { orderState } from '../states.ts';
import { shopToday } from '../today.ts';
import { billableWork } from './billable-work.ts';
import { composeInvoice } from './compose-invoice.ts';
import { whoPays } from './who-pays.ts';
import { loadWorkToBill } from './work-to-bill.ts';

/** What an order comes to now, at its agreed prices: the invoice before it is kept. */
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
    select: { currency: true, ...billedTimeColumns },
  });
  const today = await shopToday(context);
  const contactId = await whoPays(read, order, today);
  const taxed = { contactId, aircraftId: order.aircraft.id };
  const prices = await priceList(read, shop.currency, today, taxed);
  const composed = composeInvoice(billableWork(order, prices, billedTimeOf(shop), context.now()));
  return { order, state, composed, contactId, currency: prices.currency, today };
}
