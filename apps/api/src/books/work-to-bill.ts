import type { Prisma, Tx } from '@fairlead/database';
import { partPriceFacts } from '../part-price.ts';
import { orderFacts } from '../states.ts';
import { agreedFacts, ourCostFacts } from '../work/queries.ts';
import { chargeFacts } from './charges-of-order.ts';
import { payerFacts } from './payer-facts.ts';

/** The revision of a quote that the owner said yes to, with its lines. A yes is always to the newest. */
const acceptedRevision = {
  orderBy: { revision: 'desc' },
  select: {
    likelyMinor: true,
    decisions: agreedFacts.quotes.select.revisions.select.decisions,
    lines: { orderBy: { position: 'asc' }, include: { part: { select: { id: true } } } },
  },
} satisfies Prisma.Quote$revisionsArgs;

/** Everything that an invoice of an order is made from. */
export const workToBill = {
  id: true,
  number: true,
  aircraft: { select: { id: true, registration: true } },
  sales: {
    orderBy: { sale: { cutAt: 'asc' } },
    select: {
      sale: { select: { id: true, cutAt: true, soldOn: true, sellerId: true, buyerId: true } },
    },
  },
  events: orderFacts.events,
  quotes: {
    orderBy: { number: 'asc' },
    select: { id: true, contactId: true, findingId: true, more: true, revisions: acceptedRevision },
  },
  items: {
    orderBy: { position: 'asc' },
    select: {
      id: true,
      title: true,
      quoteLineId: true,
      ...orderFacts.items.select,
      events: {
        orderBy: orderFacts.items.select.events.orderBy,
        select: { ...orderFacts.items.select.events.select, at: true },
      },
      atOurCost: ourCostFacts,
      stretches: { select: { id: true, startedAt: true, endedAt: true } },
      // Work that nobody quoted is sold at the rate of its kind.
      task: { select: { workKind: { select: { name: true } } } },
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        orderBy: { at: 'asc' },
        select: {
          quantity: true,
          at: true,
          lot: {
            select: {
              ...{ id: true, batch: true, unitCost: true, coreChargeMinor: true },
              part: { select: { ...partPriceFacts, category: true } },
            },
          },
        },
      },
      cores: { select: { lotId: true, quantity: true } },
    },
  },
  payers: payerFacts,
  charges: chargeFacts,
  invoices: {
    where: { creditsId: null },
    select: {
      id: true,
      number: true,
      issuedAt: true,
      creditNotes: { where: { issuedAt: { not: null }, inPart: false }, select: { id: true } },
    },
  },
} satisfies Prisma.WorkOrderSelect;

export type WorkToBill = Prisma.WorkOrderGetPayload<{ select: typeof workToBill }>;

/** Reads an order with all that may be billed of it, in a number of statements that does not grow with its items. */
export const loadWorkToBill = (read: Tx, orderId: string): Promise<WorkToBill | null> =>
  read.workOrder.findUnique({ where: { id: orderId }, select: workToBill });
