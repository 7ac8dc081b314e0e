import { PurchaseChannel, PurchaseEventKind } from '@fairlead/database';
import { currency, lineNet, sumOf } from '@fairlead/money';
import { builder } from '../builder.ts';
import { shopToday } from '../today.ts';
import { IssueExceptionType } from './lot-types.ts';
import { onShelf, shelfFacts } from './part-shelf.ts';
import {
  onOrder,
  orderedFacts,
  type PurchaseState,
  purchaseFacts,
  purchaseState,
  receivedOf,
} from './purchase-state.ts';

export const PurchaseChannelType = builder.enumType(PurchaseChannel, {
  name: 'PurchaseChannel',
  description: 'How a purchase order went to its supplier.',
  values: {
    email: { description: 'By e-mail, with the order as PDF.' },
    telephone: { description: 'Read out by telephone.' },
    other: { description: 'Some other way: by post, over the counter.' },
  },
});
const EventKind = builder.enumType(PurchaseEventKind, {
  name: 'PurchaseEventKind',
  description: 'What happened to a purchase order.',
  values: { sent: { description: 'It was sent.' }, cancelled: { description: 'Cancelled.' } },
});
const State = builder.enumType('PurchaseState', {
  description: 'How a purchase order stands; derived from what happened.',
  values: {
    draft: { description: 'Put together, and not sent.' },
    sent: { description: 'Sent; nothing came yet.' },
    received_in_part: { description: 'Some of it came.' },
    received: { description: 'All of it came.' },
    cancelled: { description: 'Nothing more is expected of it.' },
  } satisfies Record<PurchaseState, object>,
});

builder.prismaNode('PurchaseEvent', {
  id: { field: 'id' },
  description: 'Something that happened to a purchase order. Never changed.',
  fields: (t) => ({
    kind: t.expose('kind', { type: EventKind, description: 'What.' }),
    channel: t.expose('channel', {
      type: PurchaseChannelType,
      nullable: true,
      description: 'How it was sent.',
    }),
    reason: t.exposeString('reason', {
      description: 'Why it was cancelled, or sent all the same.',
    }),
    despite: t.expose('despite', {
      type: [IssueExceptionType],
      description: 'Against what it was sent, by the reason of whoever sent it.',
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who did it.' }),
  }),
});

const price = { quantity: true, unitCost: true, order: { select: { currency: true } } } as const;
interface Priced {
  quantity: { toFixed(): string };
  unitCost: { toFixed(): string };
}
const netOf = ({ quantity, unitCost }: Priced, code: string) =>
  lineNet({ quantity: quantity.toFixed(), unitPrice: unitCost.toFixed() }, currency(code));

builder.prismaNode('PurchaseLine', {
  id: { field: 'id' },
  description: 'So many of one part, on a purchase order.',
  fields: (t) => ({
    position: t.exposeInt('position', { description: 'Its place on the order, from 1.' }),
    part: t.relation('part', { description: 'Which part.' }),
    item: t.relation('item', {
      nullable: true,
      description: 'The work that it is bought for; null: for the shop’s stock.',
    }),
    quantity: t.expose('quantity', { type: 'Decimal', description: 'Units ordered.' }),
    unitCost: t.expose('unitCost', { type: 'Decimal', description: 'What one is to cost.' }),
    net: t.field({
      type: 'Minor',
      description: 'Quantity by cost, rounded once.',
      select: price,
      resolve: (line) => netOf(line, line.order.currency),
    }),
    received: t.field({
      type: 'Decimal',
      description: 'Units that came.',
      select: { lots: purchaseFacts.lines.select.lots },
      resolve: receivedOf,
    }),
    lots: t.relation('lots', {
      description: 'The lots that came of it.',
      query: { orderBy: [{ receivedOn: 'asc' }, { id: 'asc' }] },
    }),
  }),
});

builder.prismaNode('PurchaseOrder', {
  id: { field: 'id' },
  description: 'What the shop orders of a supplier.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Its number; they run without gaps.' }),
    supplier: t.exposeString('supplier', { description: 'Of whom.' }),
    supplierEmail: t.exposeString('supplierEmail', {
      description: 'Where it is sent; may be empty.',
    }),
    expectedOn: t.expose('expectedOn', {
      type: 'Date',
      nullable: true,
      description: 'When it is expected; null: nobody said.',
    }),
    note: t.exposeString('note', { description: 'What the supplier is told besides.' }),
    currency: t.exposeString('currency', { description: 'ISO 4217 code.' }),
    draftedAt: t.expose('draftedAt', { type: 'DateTime', description: 'When it was drafted.' }),
    by: t.relation('by', { description: 'Who drafted it.' }),
    lines: t.relation('lines', {
      description: 'What is ordered.',
      query: { orderBy: { position: 'asc' } },
    }),
    events: t.relation('events', {
      description: 'What happened to it.',
      query: { orderBy: { at: 'asc' } },
    }),
    state: t.field({
      type: State,
      description: 'How it stands.',
      select: purchaseFacts,
      resolve: purchaseState,
    }),
    total: t.field({
      type: 'Minor',
      description: 'What its lines come to, before tax and freight.',
      select: { currency: true, lines: { select: { quantity: true, unitCost: true } } },
      resolve: ({ currency: code, lines }) => sumOf(lines.map((line) => netOf(line, code))),
    }),
  }),
});

interface ToOrder {
  partId: string;
  free: string;
  ordered: string;
  missing: string;
}
const PartToOrder = builder.objectRef<ToOrder>('PartToOrder').implement({
  description: 'A part of which less is free and on order than its reorder point.',
  fields: (t) => ({
    part: t.prismaField({
      type: 'Part',
      description: 'Which.',
      resolve: (query, { partId }, _, { read }) =>
        read.part.findUniqueOrThrow({ ...query, where: { id: partId } }),
    }),
    free: t.field({
      type: 'Decimal',
      description: 'Units free and within their shelf life.',
      resolve: ({ free }) => free,
    }),
    onOrder: t.field({
      type: 'Decimal',
      description: 'Units on order.',
      resolve: ({ ordered }) => ordered,
    }),
    missing: t.field({
      type: 'Decimal',
      description: 'How many it takes to reach the reorder point.',
      resolve: ({ missing }) => missing,
    }),
  }),
});

builder.queryFields((t) => ({
  partsToOrder: t.field({
    type: [PartToOrder],
    description: 'Parts that fell below their reorder point, by number.',
    resolve: async (_, __, context) => {
      const today = await shopToday(context);
      const parts = await context.read.part.findMany({
        where: { reorderPoint: { not: null } },
        orderBy: { number: 'asc' },
        select: { id: true, reorderPoint: true, lots: shelfFacts, purchases: orderedFacts },
      });
      return parts.flatMap(({ id, reorderPoint, lots, purchases }): ToOrder[] => {
        const { free } = onShelf(lots, today);
        const ordered = onOrder(purchases);
        const missing = reorderPoint?.minus(free).minus(ordered);
        return missing === undefined || missing.lessThanOrEqualTo(0)
          ? []
          : [
              {
                partId: id,
                free: free.toFixed(),
                ordered: ordered.toFixed(),
                missing: missing.toFixed(),
              },
            ];
      });
    },
  }),
  purchaseOrders: t.prismaConnection({
    type: 'PurchaseOrder',
    cursor: 'id',
    description: 'What the shop ordered, the newest first.',
    resolve: (query, _, __, { read }) =>
      read.purchaseOrder.findMany({ ...query, orderBy: [{ number: 'desc' }, { id: 'desc' }] }),
  }),
}));

builder.prismaObjectField('Lot', 'purchaseLine', (t) =>
  t.relation('purchaseLine', {
    nullable: true,
    description: 'The line of a purchase order that it was ordered by.',
  }),
);
builder.prismaObjectField('PurchaseLine', 'order', (t) =>
  t.relation('order', { description: 'The order that it is on.' }),
);
