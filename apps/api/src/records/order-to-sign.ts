import type { Prisma, Tx } from '@fairlead/database';
import { holdAllFor, holdFor } from '../hold.ts';
import { partMoveFacts } from '../programme/queries.ts';
import { openOnOrder } from '../safety/queries.ts';
import { findingFacts, itemFacts } from '../states.ts';

/** A signed entry that stands: one that no later entry corrects. */
const entry = {
  id: true,
  bookId: true,
  outcome: true,
  rule: true,
  text: true,
  signedAt: true,
  signedById: true,
  correctsId: true,
  inspection: true,
  signedBy: { select: { name: true } },
  items: { select: { itemId: true } },
  corrections: { select: { id: true } },
} satisfies Prisma.RecordEntrySelect;

/** Everything that an entry, and the release, are made from. */
export const orderToSign = {
  id: true,
  number: true,
  title: true,
  aircraft: {
    select: {
      id: true,
      registration: true,
      model: { select: { maker: true, name: true } },
      books: { orderBy: [{ kind: 'asc' }, { title: 'asc' }] },
      fittings: { orderBy: [{ fittedAt: 'asc' }, { id: 'asc' }], select: partMoveFacts },
      contacts: {
        where: { until: null, capacity: { in: ['owner', 'operator'] } },
        orderBy: [{ capacity: 'asc' }, { since: 'asc' }],
        select: { contact: { select: { name: true } } },
      },
    },
  },
  events: { select: { kind: true, outcome: true, at: true } },
  readings: {
    orderBy: [{ readAt: 'desc' }, { id: 'desc' }],
    take: 1,
    select: { tisHundredths: true },
  },
  quotes: {
    select: {
      package: { select: { title: true, revision: true, madeFrom: true, inspection: true } },
    },
  },
  items: {
    orderBy: { position: 'asc' },
    select: {
      id: true,
      position: true,
      title: true,
      jasc: true,
      reference: true,
      findingId: true,
      ...itemFacts,
      events: {
        orderBy: itemFacts.events.orderBy,
        select: {
          kind: true,
          at: true,
          byId: true,
          workDone: true,
          by: { select: { name: true } },
        },
      },
      stretches: {
        orderBy: { startedAt: 'asc' },
        select: { endedAt: true, person: { select: { name: true } } },
      },
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        orderBy: [{ at: 'asc' }, { id: 'asc' }],
        select: {
          ...{ quantity: true, despite: true, reason: true },
          by: { select: { name: true } },
          lot: {
            select: {
              ...{ id: true, batch: true, tag: true },
              part: { select: { number: true, title: true, unit: true } },
              documents: { select: { id: true }, take: 1 },
            },
          },
        },
      },
    },
  },
  findings: {
    orderBy: { number: 'asc' },
    select: {
      id: true,
      number: true,
      title: true,
      words: true,
      zone: true,
      item: { select: { jasc: true } },
      photos: {
        where: { photo: { preview: true } },
        select: { photo: { select: { addedAt: true } } },
      },
      ...findingFacts,
      corrections: { select: { jasc: true, ...itemFacts } },
    },
  },
  flightChecks: {
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: 1,
    select: { kind: true, words: true },
  },
  entries: { orderBy: [{ signedAt: 'asc' }, { id: 'asc' }], select: entry },
  ...openOnOrder,
} satisfies Prisma.WorkOrderSelect;

export type OrderToSign = Prisma.WorkOrderGetPayload<{ select: typeof orderToSign }>;
export type SignedEntry = OrderToSign['entries'][number];
export type ItemToSign = OrderToSign['items'][number];

/** Reads an order with all that its entries are made from, in a number of statements that does not grow with its items. */
export const loadOrderToSign = (read: Tx, orderId: string): Promise<OrderToSign | null> =>
  read.workOrder.findUnique({ where: { id: orderId }, select: orderToSign });

/** Entries that stand, of one book or of all. */
export const standing = ({ entries }: OrderToSign, bookId?: string): SignedEntry[] =>
  entries.filter(
    (entry) => entry.corrections.length === 0 && (bookId === undefined || entry.bookId === bookId),
  );

/** Holds an order, its findings and its items to the end of the transaction: nothing of them changes while somebody signs. */
export async function holdForSigning(tx: Tx, orderId: string): Promise<void> {
  await holdFor(tx, 'order', orderId);
  await holdFor(tx, 'findings of order', orderId);
  const items = await tx.workItem.findMany({ where: { orderId }, select: { id: true } });
  await holdAllFor(
    tx,
    'item',
    items.map(({ id }) => id),
  );
}
