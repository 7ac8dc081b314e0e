import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import {
  type CustomerCore,
  coresOwedByCustomers,
  coresOwedToSuppliers,
  type SupplierCore,
} from './queries.ts';
import { recordCore } from './record-core.ts';

const CoreOwedByWork = builder.objectRef<CustomerCore>('CoreOwedByWork').implement({
  description: 'Old parts that a customer’s work owes the shop, and what stays charged for them.',
  fields: (t) => ({
    lot: t.prismaField({
      type: 'Lot',
      description: 'What was issued.',
      resolve: (query, { lotId }, _, { read }) =>
        read.lot.findUniqueOrThrow({ ...query, where: { id: lotId } }),
    }),
    item: t.prismaField({
      type: 'WorkItem',
      description: 'The work that it was issued to.',
      resolve: (query, { itemId }, _, { read }) =>
        read.workItem.findUniqueOrThrow({ ...query, where: { id: itemId } }),
    }),
    quantity: t.field({
      type: 'Decimal',
      description: 'Old ones still to come.',
      resolve: ({ quantity }) => quantity,
    }),
    amount: t.field({
      type: 'Minor',
      description: 'What stays charged until they do, net.',
      resolve: ({ amount }) => amount,
    }),
    since: t.field({
      type: 'DateTime',
      description: 'When the first of them was issued.',
      resolve: ({ since }) => since,
    }),
  }),
});

const CoreOwedToSupplier = builder.objectRef<SupplierCore>('CoreOwedToSupplier').implement({
  description: 'Old parts that the shop owes a supplier.',
  fields: (t) => ({
    lot: t.prismaField({
      type: 'Lot',
      description: 'What was delivered.',
      resolve: (query, { lotId }, _, { read }) =>
        read.lot.findUniqueOrThrow({ ...query, where: { id: lotId } }),
    }),
    quantity: t.field({
      type: 'Decimal',
      description: 'Old ones still to be sent.',
      resolve: ({ quantity }) => quantity,
    }),
    amount: t.field({
      type: 'Minor',
      description: 'What stays charged until they are.',
      resolve: ({ amount }) => amount,
    }),
    atHand: t.field({
      type: 'Decimal',
      description: 'Old ones that came from customers for this lot and lie here.',
      resolve: ({ atHand }) => atHand,
    }),
  }),
});

builder.queryFields((t) => ({
  coresOwedByWork: t.field({
    type: [CoreOwedByWork],
    description: 'Every core that customers’ work owes the shop, the oldest first.',
    resolve: (_, __, { read }) => coresOwedByCustomers(read),
  }),
  coresOwedToSuppliers: t.field({
    type: [CoreOwedToSupplier],
    description: 'Every core that the shop owes its suppliers, by lot.',
    resolve: (_, __, { read }) => coresOwedToSuppliers(read),
  }),
}));

builder.prismaObjectField('WorkOrder', 'coresOwed', (t) =>
  t.field({
    type: [CoreOwedByWork],
    description: 'The cores that its work owes the shop.',
    select: { id: true },
    resolve: ({ id: orderId }, _, { read }) => coresOwedByCustomers(read, { orderId }),
  }),
);

builder.prismaObjectField('Lot', 'coreCharge', (t) =>
  t.expose('coreChargeMinor', {
    type: 'Minor',
    nullable: true,
    description: 'Charged for one unit until the old one comes back, as it was when the lot came.',
  }),
);

const quantity = {
  type: 'Decimal',
  required: true,
  description: 'Units: more than 0, with at most 3 decimals.',
} as const;
const words = { description: 'In which condition, at most 300 characters.' };
const clientEventId = {
  description: 'A UUID that the page makes, so that what is sent twice counts once.',
};

const CoreCameBackInput = builder.inputType('CoreCameBackInput', {
  description: 'Old parts that came from an aircraft.',
  fields: (t) => ({
    lotId: t.id({ required: true, description: 'The lot that was issued in their stead.' }),
    itemId: t.id({ required: true, description: 'The work that they came from.' }),
    quantity: t.field(quantity),
    words: t.string(words),
    clientEventId: t.string(clientEventId),
  }),
});
const CoreSentBackInput = builder.inputType('CoreSentBackInput', {
  description: 'Old parts that went to the supplier.',
  fields: (t) => ({
    lotId: t.id({ required: true, description: 'The lot that was delivered in their stead.' }),
    quantity: t.field(quantity),
    words: t.string(words),
    clientEventId: t.string(clientEventId),
  }),
});

builder.mutationFields((t) => ({
  coreCameBack: t.prismaField({
    type: 'Lot',
    errors: {},
    description: 'An old part came from the aircraft: no core is owed for it any more.',
    args: { input: t.arg({ type: CoreCameBackInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await recordCore(context, {
        lotId: keyOf('Lot', input.lotId, 'lotId'),
        itemId: keyOf('WorkItem', input.itemId, 'itemId'),
        quantity: input.quantity,
        words: input.words ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  coreSentBack: t.prismaField({
    type: 'Lot',
    errors: {},
    description: 'An old part went to the supplier: the shop owes no core for it any more.',
    args: { input: t.arg({ type: CoreSentBackInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await recordCore(context, {
        lotId: keyOf('Lot', input.lotId, 'lotId'),
        itemId: null,
        quantity: input.quantity,
        words: input.words ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
