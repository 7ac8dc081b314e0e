import { builder } from '../builder.ts';
import { type OnOrder, onOrderNow } from '../on-order.ts';
import { shopToday } from '../today.ts';
import type { BeyondWithPart } from '../work/index.ts';
import { pastByPurchase } from './past-by-purchase.ts';
import { purchaseToSend } from './purchase-for-change.ts';

const PastAuthority = builder
  .objectRef<BeyondWithPart & { orderId: string }>('PastAuthority')
  .implement({
    description: 'That an order of work would go past what its owner agreed to.',
    fields: (t) => ({
      order: t.prismaField({
        type: 'WorkOrder',
        description: 'Which order.',
        resolve: (query, { orderId }, _, { read }) =>
          read.workOrder.findUniqueOrThrow({ ...query, where: { id: orderId } }),
      }),
      beyond: t.field({
        type: 'Minor',
        description: 'How far past it, net.',
        resolve: ({ beyond }) => beyond,
      }),
      ceiling: t.field({
        type: 'Minor',
        description: 'How far it may be worked and billed, net.',
        resolve: ({ ceiling }) => ceiling,
      }),
    }),
  });

builder.prismaObjectField('PurchaseOrder', 'pastAuthority', (t) =>
  t.field({
    type: [PastAuthority],
    description:
      'While it is a draft: the orders of work that sending it would take past what their owners agreed to, at what its parts are billed at, with all that is at the work and on the way to it.',
    select: { id: true },
    resolve: async ({ id }, _, context) => {
      const purchase = await purchaseToSend(context.read, id);
      if (purchase.state !== 'draft') return [];
      const day = await shopToday(context);
      return pastByPurchase(context.read, purchase.lines, { day, now: context.now() });
    },
  }),
);

const OnOrderType = builder.objectRef<OnOrder>('OnOrder').implement({
  description: 'Parts that were bought for work and are not at it yet.',
  fields: (t) => ({
    quantity: t.field({
      type: 'Decimal',
      description: 'Units still to come, or here and not issued.',
      resolve: ({ quantity }) => quantity,
    }),
    line: t.prismaField({
      type: 'PurchaseLine',
      description: 'What they were ordered by.',
      resolve: (query, { lineId }, _, { read }) =>
        read.purchaseLine.findUniqueOrThrow({ ...query, where: { id: lineId } }),
    }),
  }),
});

builder.prismaObjectField('WorkOrder', 'onOrder', (t) =>
  t.field({
    type: [OnOrderType],
    description: 'What was bought for its work and is not at it yet.',
    select: { id: true },
    resolve: async ({ id }, _, context) =>
      (await onOrderNow(context)).filter(({ orderId }) => orderId === id),
  }),
);
