import type { Prisma, Tx } from '@fairlead/database';
import { Refused } from './errors.ts';
import { sayDay } from './given.ts';

/** The sales that cut an order in two, the first one first, with the invoices that stand for what was done until each. */
export const sellersFacts = {
  orderBy: { sale: { cutAt: 'asc' } },
  select: {
    order: { select: { number: true } },
    sale: {
      select: {
        ...{ id: true, cutAt: true, soldOn: true },
        seller: { select: { name: true } },
        invoices: {
          where: {
            ...{ creditsId: null, issuedAt: { not: null } },
            creditNotes: { none: { issuedAt: { not: null }, inPart: false } },
          },
          orderBy: { number: 'asc' },
          select: { number: true, orderId: true },
        },
      },
    },
  },
} as const satisfies Prisma.WorkOrder$salesArgs;

type Sold = Prisma.AircraftSaleOrderGetPayload<{ select: typeof sellersFacts.select }>;

/** Of the sales of an order: the one until which something was the seller's; null where it is the owner's of now. */
export const saleOf = (sales: readonly Sold[], at: Date): Sold | null =>
  sales.find(({ sale }) => at <= sale.cutAt) ?? null;

/**
 * Refuses what would change what a seller was billed for: an invoice that was issued never changes, and the buyer must not be
 * billed for it again.
 *
 * @param at when what would change was done, issued or charged
 * @param change what was to be done, as the beginning of a sentence
 * @throws Refused
 */
export async function refuseBilledToSeller(
  tx: Tx,
  orderId: string,
  at: readonly Date[],
  change: string,
): Promise<void> {
  const sales = await tx.aircraftSaleOrder.findMany({ where: { orderId }, ...sellersFacts });
  for (const instant of at) {
    const sold = saleOf(sales, instant);
    if (!sold) continue;
    const { seller, soldOn, invoices } = sold.sale;
    const billed = invoices.filter((invoice) => invoice.orderId === orderId);
    if (billed.length === 0) continue;
    const numbers = billed.map(({ number }) => number).join(' and ');
    throw new Refused(
      'CONFLICT',
      `${change} would change what ${seller.name} was billed for on order ${sold.order.number}, with invoice ${numbers}, before the aircraft was sold on ${sayDay(soldOn)}: take that back by a credit note first, and bill the seller anew afterwards. The owner of now is not billed for it.`,
    );
  }
}
