import { PayerKind, PayerTake, type Prisma } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addPayerShare } from './add-payer-share.ts';
import { endPayerShare } from './end-payer-share.ts';

builder.enumType(PayerKind, {
  name: 'PayerKind',
  description: 'Who pays a part of an order besides the customer.',
  values: {
    warranty: { description: 'Who gave a warranty.' },
    insurer: { description: 'An insurer.' },
    other: { description: 'Somebody else.' },
  },
});
builder.enumType(PayerTake, {
  name: 'PayerTake',
  description: 'How much somebody takes over.',
  values: {
    whole: { description: 'All of it.' },
    percent: { description: 'A per cent of it.' },
    sum: { description: 'A sum, before tax; never more than there is.' },
  },
});

builder.prismaNode('PayerShare', {
  id: { field: 'id' },
  description:
    'That somebody besides the customer pays a part of an order. Never changed: it is ended, and another made.',
  fields: (t) => ({
    order: t.relation('order', { description: 'Of which order.' }),
    contact: t.relation('contact', { description: 'Who pays.' }),
    kind: t.expose('kind', { type: PayerKind, description: 'What they are to it.' }),
    take: t.expose('take', { type: PayerTake, description: 'How much they take over.' }),
    percent: t.expose('percent', {
      type: 'Decimal',
      nullable: true,
      description: 'Of what it comes to before tax.',
    }),
    amount: t.expose('amountMinor', { type: 'Minor', nullable: true, description: 'Before tax.' }),
    deductible: t.expose('deductibleMinor', {
      type: 'Minor',
      description: 'What of it stays with the customer, before tax.',
    }),
    reference: t.exposeString('reference', { description: 'Number of the claim or warranty.' }),
    items: t.prismaField({
      type: ['WorkItem'],
      description: 'Of which items; none: of the whole order.',
      select: (_args, _context, nested) => ({ items: { select: { item: nested() } } }),
      resolve: (_query, { items }) => items.map(({ item }) => item),
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was kept.' }),
    by: t.relation('by', { description: 'Who kept it.' }),
    ended: t.string({
      nullable: true,
      description: 'Why they do not pay after all; null: they do.',
      select: { ends: { select: { reason: true } } },
      resolve: ({ ends }) => ends[0]?.reason ?? null,
    }),
  }),
});

const inTurn = {
  orderBy: [{ at: 'asc' }, { id: 'asc' }],
} satisfies Prisma.PayerShareFindManyArgs;

builder.prismaObjectFields('WorkOrder', (t) => ({
  payers: t.relation('payers', {
    description:
      'Who pays a part of it besides the customer, in turn; those who do not after all among them.',
    query: inTurn,
  }),
}));

const AddPayerShareInput = builder.inputType('AddPayerShareInput', {
  description: 'Who pays a part of an order besides the customer.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    contactId: t.id({ required: true, description: 'Who pays.' }),
    kind: t.field({ type: PayerKind, required: true, description: 'What they are to it.' }),
    take: t.field({ type: PayerTake, required: true, description: 'How much they take over.' }),
    percent: t.field({ type: 'Decimal', description: 'For a per cent: more than 0, at most 100.' }),
    amount: t.field({ type: 'Minor', description: 'For a sum: more than 0, before tax.' }),
    deductible: t.field({
      type: 'Minor',
      description: 'What stays with the customer, before tax; left out: 0.',
    }),
    itemIds: t.idList({ description: 'Of these items; left out: of the whole order.' }),
    reference: t.string({
      description: 'Number of the claim or warranty, at most 120 characters.',
    }),
  }),
});
const EndPayerShareInput = builder.inputType('EndPayerShareInput', {
  description: 'Who does not pay after all.',
  fields: (t) => ({
    shareId: t.id({ required: true, description: 'Their share.' }),
    reason: t.string({ required: true, description: 'Why, 3 to 500 characters.' }),
  }),
});

builder.mutationFields((t) => ({
  addPayerShare: t.prismaField({
    type: 'PayerShare',
    errors: {},
    description:
      'Keeps who pays a part of an order besides the customer. For the front desk and the manager.',
    args: {
      input: t.arg({ type: AddPayerShareInput, required: true, description: 'Who, and how much.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await addPayerShare(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        kind: input.kind,
        take: input.take,
        percent: input.percent ?? null,
        amount: input.amount ?? null,
        deductible: input.deductible ?? null,
        itemIds: (input.itemIds ?? []).map((each) => keyOf('WorkItem', each, 'itemIds')),
        reference: input.reference ?? null,
      });
      return context.read.payerShare.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  endPayerShare: t.prismaField({
    type: 'PayerShare',
    errors: {},
    description: 'Keeps that a payer does not pay after all. For the front desk and the manager.',
    args: {
      input: t.arg({ type: EndPayerShareInput, required: true, description: 'Which, and why.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await endPayerShare(context, {
        shareId: keyOf('PayerShare', input.shareId, 'shareId'),
        reason: input.reason,
      });
      return context.read.payerShare.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
