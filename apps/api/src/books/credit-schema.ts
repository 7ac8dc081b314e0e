import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { keyOf } from '../ids.ts';
import { endedWords, exemptionsOf } from '../quoting/queries.ts';
import { shopToday } from '../today.ts';
import {
  type CoreToCredit,
  coreCreditFacts,
  coresToCredit,
  invoicesToCredit,
} from './cores-to-credit.ts';
import { creditCores } from './credit-cores.ts';
import { payBack } from './pay-back.ts';

const CoreToCreditType = builder.objectRef<CoreToCredit>('CoreToCredit').implement({
  description: 'Old parts that came after they were billed, and what is to be given back for them.',
  fields: (t) => ({
    line: t.prismaField({
      type: 'InvoiceLine',
      description: 'The line that charged them.',
      resolve: (query, { line }, _, { read }) =>
        read.invoiceLine.findUniqueOrThrow({ ...query, where: { id: line.id } }),
    }),
    quantity: t.exposeString('quantity', { description: 'How many came, a plain decimal.' }),
    amount: t.expose('amount', { type: 'Minor', description: 'To be given back, net.' }),
  }),
});

builder.prismaObjectFields('Invoice', (t) => ({
  inPart: t.exposeBoolean('inPart', {
    description: 'A credit note that takes back cores alone: its invoice stands otherwise.',
  }),
  coresToCredit: t.field({
    type: [CoreToCreditType],
    description: 'Old parts that came after they were billed on it and are not given back yet.',
    select: { issuedAt: true, creditsId: true, ...coreCreditFacts },
    resolve: (invoice) =>
      invoice.issuedAt === null || invoice.creditsId !== null ? [] : coresToCredit(invoice),
  }),
  endedExemptions: t.stringList({
    description:
      'Exemptions from tax of its payer or aircraft that ended and that nothing has followed, a sentence each. For a draft: issued, it has the tax that it has.',
    select: { issuedAt: true, contactId: true, order: { select: { aircraftId: true } } },
    resolve: async ({ issuedAt, contactId, order: { aircraftId } }, _, context) =>
      issuedAt === null
        ? endedWords(
            await exemptionsOf(context.read, { contactId, aircraftId }),
            await shopToday(context),
          )
        : [],
  }),
}));

builder.queryFields((t) => ({
  invoicesToCredit: t.prismaField({
    type: ['Invoice'],
    description:
      'Invoices on which the charge for old parts that came is to be given back, the oldest first. For the front desk and the manager.',
    resolve: async (query, _, __, context) => {
      await allow(context, 'front_desk', 'manager');
      const found = await invoicesToCredit(context.read);
      return context.read.invoice.findMany({
        ...query,
        where: { id: { in: found.map(({ id }) => id) } },
        orderBy: { number: 'asc' },
      });
    },
  }),
}));

const CreditCoresInput = builder.inputType('CreditCoresInput', {
  description: 'The invoice whose cores came.',
  fields: (t) => ({
    invoiceId: t.id({ required: true, description: 'The issued invoice.' }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that what is sent twice is one note.',
    }),
  }),
});
const PayBackInput = builder.inputType('PayBackInput', {
  description: 'Money that goes back to whoever paid more than is owed.',
  fields: (t) => ({
    invoiceId: t.id({ required: true, description: 'The invoice.' }),
    amount: t.field({
      type: 'Minor',
      required: true,
      description: 'More than 0, at most what is to be paid back.',
    }),
    method: t.string({ required: true, description: 'By which way, at most 60 characters.' }),
    paidAt: t.field({ type: 'DateTime', description: 'When; left out: now.' }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that what is sent twice is one.',
    }),
  }),
});

builder.mutationFields((t) => ({
  creditCores: t.prismaField({
    type: 'Invoice',
    errors: {},
    description:
      'Gives back the charge for old parts that came after they were billed, with a credit note, and answers with the note. For the front desk and the manager.',
    args: {
      input: t.arg({ type: CreditCoresInput, required: true, description: 'Which invoice.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await creditCores(context, {
        invoiceId: keyOf('Invoice', input.invoiceId, 'invoiceId'),
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.invoice.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  payBack: t.prismaField({
    type: 'Invoice',
    errors: {},
    description:
      'Records money that went back on an invoice on which more was paid than is owed. For the front desk and the manager.',
    args: { input: t.arg({ type: PayBackInput, required: true, description: 'What goes back.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await payBack(context, {
        invoiceId: keyOf('Invoice', input.invoiceId, 'invoiceId'),
        amount: input.amount,
        method: input.method,
        paidAt: input.paidAt ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.invoice.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
