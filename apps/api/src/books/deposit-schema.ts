import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { depositFacts, leftOf } from './deposits-of.ts';
import { refundDeposit } from './refund-deposit.ts';
import { takeDeposit } from './take-deposit.ts';

builder.prismaNode('DepositRefund', {
  id: { field: 'id' },
  description: 'What of a deposit was paid back. Never changed.',
  fields: (t) => ({
    amount: t.expose('amountMinor', { type: 'Minor', description: 'How much.' }),
    method: t.exposeString('method', { description: 'By which way.' }),
    paidAt: t.expose('paidAt', { type: 'DateTime', description: 'When.' }),
  }),
});

builder.prismaNode('Deposit', {
  id: { field: 'id' },
  description:
    'Money taken for an order before there is an invoice. Never changed; it is set against the invoice when that is issued.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Of its receipt, from 1 in the shop.' }),
    order: t.relation('order', { description: 'For which order.' }),
    contact: t.relation('contact', { description: 'Whose money it is.' }),
    currency: t.exposeString('currency', { description: 'ISO 4217 code.' }),
    amount: t.expose('amountMinor', { type: 'Minor', description: 'How much came in.' }),
    method: t.exposeString('method', { description: 'By which way.' }),
    paidAt: t.expose('paidAt', { type: 'DateTime', description: 'When.' }),
    left: t.field({
      type: 'Minor',
      description: 'What is neither set against an invoice nor paid back.',
      select: depositFacts,
      resolve: leftOf,
    }),
    setAgainst: t.relation('payments', {
      description:
        'What of it was set against invoices, in order; below 0: freed again, since the invoice was credited.',
      query: { orderBy: [{ recordedAt: 'asc' }, { id: 'asc' }] },
    }),
    refunds: t.relation('refunds', {
      description: 'What of it was paid back, in order.',
      query: { orderBy: [{ recordedAt: 'asc' }, { id: 'asc' }] },
    }),
  }),
});

builder.prismaObjectFields('Payment', (t) => ({
  invoice: t.relation('invoice', { description: 'On which invoice.' }),
  deposit: t.relation('deposit', {
    nullable: true,
    description: 'The deposit that it was set from; null: it came in as it is.',
  }),
}));

builder.prismaObjectFields('WorkOrder', (t) => ({
  deposits: t.relation('deposits', {
    description: 'What was taken for it before an invoice, in order.',
    query: { orderBy: { number: 'asc' } },
  }),
  depositsLeft: t.field({
    type: 'Minor',
    description: 'What is left of its deposits.',
    select: { deposits: { select: depositFacts } },
    resolve: ({ deposits }) => deposits.reduce((sum, each) => sum + leftOf(each), 0n),
  }),
}));

const moneyIn = {
  amount: 'More than 0, in minor units.',
  method: 'By which way, at most 60 characters.',
  paidAt: 'When; left out: now.',
  clientEventId: 'A UUID that the page makes, so that what is sent twice is one.',
};
const TakeDepositInput = builder.inputType('TakeDepositInput', {
  description: 'Money that came in for an order that is not billed yet.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    contactId: t.id({ required: true, description: 'Whose money it is.' }),
    amount: t.field({ type: 'Minor', required: true, description: moneyIn.amount }),
    method: t.string({ required: true, description: moneyIn.method }),
    paidAt: t.field({ type: 'DateTime', description: moneyIn.paidAt }),
    clientEventId: t.string({ description: moneyIn.clientEventId }),
  }),
});
const RefundDepositInput = builder.inputType('RefundDepositInput', {
  description: 'What of a deposit is paid back.',
  fields: (t) => ({
    depositId: t.id({ required: true, description: 'The deposit.' }),
    amount: t.field({
      type: 'Minor',
      required: true,
      description: 'More than 0, at most what is left.',
    }),
    method: t.string({ required: true, description: moneyIn.method }),
    paidAt: t.field({ type: 'DateTime', description: moneyIn.paidAt }),
    clientEventId: t.string({ description: moneyIn.clientEventId }),
  }),
});

builder.mutationFields((t) => ({
  takeDeposit: t.prismaField({
    type: 'Deposit',
    errors: {},
    description:
      'Takes a deposit for an order before it is billed. For the front desk and the manager.',
    args: {
      input: t.arg({ type: TakeDepositInput, required: true, description: 'What came in.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await takeDeposit(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        amount: input.amount,
        method: input.method,
        paidAt: input.paidAt ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.deposit.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  refundDeposit: t.prismaField({
    type: 'Deposit',
    errors: {},
    description:
      'Pays back what is left of a deposit, or a part of it. For the front desk and the manager.',
    args: {
      input: t.arg({ type: RefundDepositInput, required: true, description: 'What goes back.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await refundDeposit(context, {
        depositId: keyOf('Deposit', input.depositId, 'depositId'),
        amount: input.amount,
        method: input.method,
        paidAt: input.paidAt ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.deposit.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
