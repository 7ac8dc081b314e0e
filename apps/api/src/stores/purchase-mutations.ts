import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { cancelPurchase } from './cancel-purchase.ts';
import { draftPurchase } from './draft-purchase.ts';
import { IssueExceptionType } from './lot-types.ts';
import { PurchaseChannelType } from './purchase-types.ts';
import { sendPurchase } from './send-purchase.ts';

const PurchaseLineInput = builder.inputType('PurchaseLineInput', {
  description: 'So many of one part.',
  fields: (t) => ({
    partId: t.id({ required: true, description: 'The part.' }),
    quantity: t.field({
      type: 'Decimal',
      required: true,
      description: 'Units: more than 0, at most 100,000, with at most 3 decimals.',
    }),
    unitCost: t.field({
      type: 'Decimal',
      required: true,
      description: 'What one is to cost, 0 or more, with at most 4 decimals.',
    }),
    itemId: t.id({
      description: 'The work that it is bought for; left out: for the shop’s stock.',
    }),
  }),
});

const DraftPurchaseInput = builder.inputType('DraftPurchaseInput', {
  description: 'What is to be ordered of one supplier.',
  fields: (t) => ({
    supplier: t.string({ required: true, description: 'Of whom, at most 120 characters.' }),
    supplierEmail: t.string({ description: 'Where it is sent.' }),
    expectedOn: t.field({ type: 'Date', description: 'When it is expected.' }),
    note: t.string({ description: 'What the supplier is told besides, at most 500 characters.' }),
    lines: t.field({
      type: [PurchaseLineInput],
      required: true,
      description: 'What is ordered, 1 to 100 lines.',
    }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that what is sent twice is one order.',
    }),
  }),
});

const SendPurchaseInput = builder.inputType('SendPurchaseInput', {
  description: 'That a purchase order went to its supplier.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The purchase order.' }),
    channel: t.field({ type: PurchaseChannelType, required: true, description: 'How.' }),
    despite: t.field({
      type: [IssueExceptionType],
      description: 'What it is sent against, known to whoever sends it.',
    }),
    reason: t.string({
      description: 'Why it is sent all the same, 3 to 300 characters; kept under your name.',
    }),
  }),
});

const CancelPurchaseInput = builder.inputType('CancelPurchaseInput', {
  description: 'That nothing more is expected of a purchase order.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The purchase order.' }),
    reason: t.string({ required: true, description: 'Why, 3 to 300 characters.' }),
  }),
});

builder.mutationFields((t) => ({
  draftPurchase: t.prismaField({
    type: 'PurchaseOrder',
    errors: {},
    description: 'Puts together what is to be ordered of one supplier, with a number.',
    args: { input: t.arg({ type: DraftPurchaseInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await draftPurchase(context, {
        supplier: input.supplier,
        supplierEmail: input.supplierEmail ?? null,
        expectedOn: input.expectedOn ?? null,
        note: input.note ?? null,
        lines: input.lines.map((line) => ({
          ...line,
          partId: keyOf('Part', line.partId, 'partId'),
          itemId: line.itemId ? keyOf('WorkItem', line.itemId, 'itemId') : null,
        })),
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.purchaseOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  sendPurchase: t.prismaField({
    type: 'PurchaseOrder',
    errors: {},
    description: 'Records that a purchase order went to its supplier; by e-mail, it is mailed.',
    args: { input: t.arg({ type: SendPurchaseInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await sendPurchase(context, {
        orderId: keyOf('PurchaseOrder', input.orderId, 'orderId'),
        channel: input.channel,
        despite: input.despite ?? [],
        reason: input.reason ?? null,
      });
      return context.read.purchaseOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  cancelPurchase: t.prismaField({
    type: 'PurchaseOrder',
    errors: {},
    description: 'Nothing more is expected of a purchase order; what came of it stays.',
    args: { input: t.arg({ type: CancelPurchaseInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await cancelPurchase(context, {
        orderId: keyOf('PurchaseOrder', input.orderId, 'orderId'),
        reason: input.reason,
      });
      return context.read.purchaseOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
