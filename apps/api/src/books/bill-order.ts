import type { Tx } from '@fairlead/database';
import { billedTimeColumns, billedTimeOf } from '../billed-time.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { overrunColumns, overrunOf } from '../overrun.ts';
import { exemptionsOfEach, type PriceList, priceList } from '../quoting/queries.ts';
import { orderState } from '../states.ts';
import { holdClocksOf } from '../work/queries.ts';
import { workInTurn } from './bill-in-turn.ts';
import { billableWork } from './billable-work.ts';
import { composeInvoice } from './compose-invoice.ts';
import { linesAtOurCost } from './lines-at-our-cost.ts';
import { shareOut } from './share-out.ts';
import { whoPays } from './who-pays.ts';
import { loadWorkToBill } from './work-to-bill.ts';

export interface ToBill {
  orderId: string;
  /** What a seller owes to date; null: the owner of now. */
  saleId: string | null;
  /** The shop's day, whose prices and taxes count. */
  today: Date;
  now: Date;
}

/**
 * Holds to the end of the transaction all that an invoice of an order is reckoned from: what was agreed, issued and charged, who
 * pays, and the clocks of whoever worked on it. A clock that sends meanwhile waits for a moment and counts from then on.
 */
export async function holdBilling(tx: Tx, orderId: string): Promise<void> {
  await holdFor(tx, 'order', orderId);
  await holdFor(tx, 'invoices of order', orderId);
  await holdClocksOf(tx, orderId);
}

/**
 * What an order comes to now, at its agreed prices: its invoices before they are kept, the customer's first. Where its aircraft was
 * sold mid-work, what is of the owner of now; or, of a sale, what is of the seller to date. Reckoned in the transaction that keeps
 * it, under `holdBilling`.
 */
export async function billOrder(tx: Tx, { orderId, saleId, today, now }: ToBill) {
  const whole = await loadWorkToBill(tx, orderId);
  if (!whole) throw notFound('order');
  const sales = whole.sales.map(({ sale }) => sale);
  const sale = saleId === null ? null : (sales.find(({ id }) => id === saleId) ?? null);
  if (saleId !== null && sale === null)
    throw new Refused(
      'NOT_FOUND',
      `Order ${whole.number} did not go on when that sale was recorded: nothing of it is billed to that seller.`,
      'saleId',
    );
  const before = sale ? sales[sales.indexOf(sale) - 1] : sales.at(-1);
  const turn = { after: before?.cutAt ?? null, until: sale?.cutAt ?? null };
  const order = sales.length === 0 ? whole : workInTurn(whole, turn);
  const state = orderState(whole);
  if (state === 'planned' || state === 'cancelled')
    throw new Refused(
      'AGAINST_RULE',
      `Order ${order.number} is ${state}: there is nothing to bill before ${order.aircraft.registration} has arrived for it.`,
    );
  const shop = await tx.shop.findFirstOrThrow({
    select: { currency: true, ...billedTimeColumns, ...overrunColumns },
  });
  const contactId = sale?.sellerId ?? (await whoPays(tx, order, today, turn.after));
  const taxed = { contactId, aircraftId: order.aircraft.id };
  const prices = await priceList(tx, shop.currency, today, taxed);
  const billedBy = (list: PriceList) =>
    composeInvoice(
      billableWork(order, list, billedTimeOf(shop), sale?.cutAt ?? now, {
        toDate: sale !== null,
        overrun: overrunOf(shop),
      }),
      linesAtOurCost(order, list),
    );
  const composed = billedBy(prices);
  const others = [...new Set(order.payers.map((payer) => payer.contactId))];
  const exemptions = await exemptionsOfEach(tx, others, order.aircraft.id);
  const payers = order.payers.map((payer) => ({
    ...payer,
    // The same lines with the taxes of whoever pays them: nobody is exempt by somebody else's paper.
    taxed:
      payer.contactId === contactId
        ? composed.lines
        : billedBy(prices.exempting(exemptions.get(payer.contactId) ?? [])).lines,
  }));
  const shared = shareOut(composed, payers, prices.currency);
  return { order, state, shared, contactId, turn, currency: prices.currency, today };
}
