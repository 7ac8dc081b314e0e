import { builder } from '../builder.ts';
import { counted } from '../counted.ts';
import { keyOf } from '../ids.ts';
import { creditInvoice } from './credit-invoice.ts';
import { draftInvoice } from './draft-invoice.ts';
import './account-schema.ts';
import './charge-schema.ts';
import './credit-schema.ts';
import './deposit-schema.ts';
import './exemption-schema.ts';
import './invoice-parties.ts';
import './invoice-types.ts';
import './payer-schema.ts';
import './storage-schema.ts';
import { issueInvoice } from './issue-invoice.ts';
import { recordPayment } from './record-payment.ts';
import { sendInvoice } from './send-invoice.ts';

const DraftInvoiceInput = builder.inputType('DraftInvoiceInput', {
  description: 'The order to bill.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    saleId: t.id({
      description:
        'A sale of its aircraft while it went on: what the seller owes to date. Left out: what the owner of now owes.',
    }),
  }),
});
const IssueInvoiceInput = builder.inputType('IssueInvoiceInput', {
  description: 'The draft to issue.',
  fields: (t) => ({
    invoiceId: t.id({ required: true, description: 'The draft.' }),
    dueOn: t.field({
      type: 'Date',
      description: 'When it is to be paid by; left out: 30 days on.',
    }),
  }),
});
const RecordPaymentInput = builder.inputType('RecordPaymentInput', {
  description: 'Money that came in.',
  fields: (t) => ({
    invoiceId: t.id({ required: true, description: 'The issued invoice.' }),
    amount: t.field({
      type: 'Minor',
      required: true,
      description: 'More than 0, at most what is owed.',
    }),
    method: t.string({ required: true, description: 'By which way, at most 60 characters.' }),
    paidAt: t.field({ type: 'DateTime', description: 'When it came; left out: now.' }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that a payment sent twice is one.',
    }),
  }),
});
const SendInvoiceInput = builder.inputType('SendInvoiceInput', {
  description: 'The invoice or credit note to mail to who pays.',
  fields: (t) => ({ invoiceId: t.id({ required: true, description: 'The issued invoice.' }) }),
});
const CreditInvoiceInput = builder.inputType('CreditInvoiceInput', {
  description: 'The invoice to take back, whole.',
  fields: (t) => ({ invoiceId: t.id({ required: true, description: 'The issued invoice.' }) }),
});

builder.queryFields((t) => ({
  invoices: t.prismaConnection(
    {
      type: 'Invoice',
      cursor: 'id',
      totalCount: (_, __, { read }) => read.invoice.count(),
      description: 'Drafts, invoices and credit notes, the last drafted first.',
      resolve: (query, _, __, { read }) =>
        read.invoice.findMany({ ...query, orderBy: [{ draftedAt: 'desc' }, { id: 'desc' }] }),
    },
    counted,
  ),
}));

builder.mutationFields((t) => ({
  draftInvoice: t.prismaField({
    type: 'Invoice',
    errors: {},
    description:
      'Drafts the invoice of an order; a draft that is there is replaced. For the front desk and the manager.',
    args: {
      input: t.arg({ type: DraftInvoiceInput, required: true, description: 'What to bill.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await draftInvoice(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        saleId: input.saleId ? keyOf('AircraftSale', input.saleId, 'saleId') : null,
      });
      return context.read.invoice.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  issueInvoice: t.prismaField({
    type: 'Invoice',
    errors: {},
    description:
      'Issues a draft for good. The order has to be released. For the front desk and the manager.',
    args: {
      input: t.arg({ type: IssueInvoiceInput, required: true, description: 'Which draft.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await issueInvoice(context, {
        invoiceId: keyOf('Invoice', input.invoiceId, 'invoiceId'),
        dueOn: input.dueOn ?? null,
      });
      return context.read.invoice.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  recordPayment: t.prismaField({
    type: 'Invoice',
    errors: {},
    description: 'Records a payment on an issued invoice. For the front desk and the manager.',
    args: {
      input: t.arg({ type: RecordPaymentInput, required: true, description: 'What came in.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const { amount, method, paidAt, clientEventId } = input;
      const id = await recordPayment(context, {
        invoiceId: keyOf('Invoice', input.invoiceId, 'invoiceId'),
        amount,
        method,
        paidAt: paidAt ?? null,
        clientEventId: clientEventId ?? null,
      });
      return context.read.invoice.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  sendInvoice: t.prismaField({
    type: 'Mail',
    errors: {},
    description:
      'Mails an issued invoice or credit note to who pays, with its PDF and, where there can be one, its e-invoice. For the front desk and the manager.',
    args: {
      input: t.arg({ type: SendInvoiceInput, required: true, description: 'Which invoice.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await sendInvoice(context, {
        invoiceId: keyOf('Invoice', input.invoiceId, 'invoiceId'),
      });
      return context.read.mail.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  creditInvoice: t.prismaField({
    type: 'Invoice',
    errors: {},
    description:
      'Takes back an issued invoice with a credit note, and answers with the note. For the front desk and the manager.',
    args: {
      input: t.arg({ type: CreditInvoiceInput, required: true, description: 'Which invoice.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await creditInvoice(context, {
        invoiceId: keyOf('Invoice', input.invoiceId, 'invoiceId'),
      });
      return context.read.invoice.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
