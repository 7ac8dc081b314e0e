import { type Prisma, TaxCategory } from '@fairlead/database';
import { builder } from '../builder.ts';
import { chainHash } from '../evidence.ts';
import { invoiceFacts, invoiceState, type invoiceStates } from '../states.ts';
import { type DifferenceStep, differenceFacts, differenceOf, quotedOf } from './difference.ts';
import { differenceEvidence } from './difference-evidence.ts';
import { issuedDocument } from './issued-document.ts';
import { owedFacts, owedOf, paidOf } from './owed.ts';

export const InvoiceState = builder.enumType('InvoiceState', {
  description: 'How far an invoice has come. What is still owed is computed, not a state.',
  values: {
    draft: { description: 'Can still be drafted again.' },
    issued: { description: 'Numbered, and never changed.' },
    credited: { description: 'Taken back by a credit note.' },
  } satisfies Record<(typeof invoiceStates)[number], object>,
});

const stepKinds = builder.enumType('DifferenceKind', {
  description: 'Why an invoice differs from the quote.',
  values: {
    whole: {
      description:
        'The likely amount of the whole is not the sum of the likely amounts of its lines.',
    },
    scope_added: { description: "Work added with the owner's yes, as it was quoted then." },
    labour: { description: 'More or less labour than was likely.' },
    parts: { description: 'More or fewer parts, or at another price.' },
    not_quoted: { description: 'Billed, but in no quote.' },
    our_cost: { description: "Quoted, and at the shop's own cost." },
    taken_over: { description: 'Paid by a warranty giver, an insurer, or somebody else.' },
    held_back: { description: 'Worked past what was agreed, and not billed.' },
  } satisfies Record<DifferenceStep['kind'], object>,
});

const Step = builder.objectRef<DifferenceStep>('DifferenceStep').implement({
  description: 'One step from what was quoted to what is billed, net.',
  fields: (t) => ({
    kind: t.expose('kind', { type: stepKinds, description: 'Why.' }),
    title: t.exposeString('title', { description: 'In words.' }),
    amount: t.expose('amount', {
      type: 'Minor',
      description: 'What it adds; below 0 where it takes off.',
    }),
  }),
});

const StepEvidence = builder.objectRef<string[]>('StepEvidence').implement({
  description: 'What a step from what was quoted to what is billed rests on.',
  fields: (t) => ({
    sentences: t.stringList({
      description: 'Each answer, time or lot; empty where there is none.',
      resolve: (sentences) => sentences,
    }),
  }),
});

builder.prismaNode('Invoice', {
  id: { field: 'id' },
  description:
    'What an order costs its payer. Issued, it is never changed: it is credited, by an invoice that takes it back.',
  fields: (t) => ({
    number: t.exposeInt('number', {
      nullable: true,
      description: 'Without gaps, from 1 in the shop; null for a draft.',
    }),
    state: t.field({
      type: InvoiceState,
      description: 'How far it has come.',
      select: invoiceFacts,
      resolve: invoiceState,
    }),
    order: t.relation('order', { description: 'The job that it bills.' }),
    contact: t.relation('contact', { description: 'Who pays.' }),
    currency: t.exposeString('currency', { description: 'ISO 4217 code of its amounts.' }),
    net: t.expose('netMinor', { type: 'Minor', description: 'Before tax.' }),
    tax: t.expose('taxMinor', {
      type: 'Minor',
      description: 'By category and rate, each rounded once (EN 16931, BR-CO-17).',
    }),
    gross: t.expose('grossMinor', {
      type: 'Minor',
      description: 'What is to be paid: net and tax, and what is rounded between payers.',
    }),
    rounding: t.expose('roundingMinor', {
      type: 'Minor',
      description:
        "So that all payers' invoices of an order come to what one would (EN 16931, BT-114); 0 where there is one.",
    }),
    payerShare: t.relation('payerShare', {
      nullable: true,
      description: 'What its payer takes over of the order; null: it is the customer’s own.',
    }),
    agreed: t.expose('agreedMinor', {
      type: 'Minor',
      description: "How far the owner's yes went, net, when it was drafted.",
    }),
    beyond: t.expose('beyondMinor', {
      type: 'Minor',
      description: 'Worked past what was agreed, and not billed; net.',
    }),
    draftedAt: t.expose('draftedAt', {
      type: 'DateTime',
      description: 'When it was last drafted.',
    }),
    issuedAt: t.expose('issuedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'When it was issued; null for a draft.',
    }),
    dueOn: t.expose('dueOn', {
      type: 'Date',
      nullable: true,
      description: 'When it is to be paid by.',
    }),
    paid: t.field({
      type: 'Minor',
      description: 'What was paid.',
      select: { payments: owedFacts.payments },
      resolve: paidOf,
    }),
    owed: t.field({
      type: 'Minor',
      description: 'What is still owed; below 0: to be paid back.',
      select: owedFacts,
      resolve: owedOf,
    }),
    lines: t.relation('lines', {
      description: 'What is billed, in order.',
      query: { orderBy: { position: 'asc' } },
    }),
    payments: t.relation('payments', {
      description: 'What was paid, in order.',
      query: { orderBy: owedFacts.payments.orderBy },
    }),
    credits: t.relation('credits', {
      nullable: true,
      description: 'For a credit note: the invoice that it takes back.',
    }),
    creditNotes: t.relation('creditNotes', {
      description: 'The credit notes that take it back.',
      query: { where: { issuedAt: { not: null } } },
    }),
    quoted: t.field({
      type: 'Minor',
      nullable: true,
      description: 'What was quoted for the visit, net and likely; null for a credit note.',
      select: differenceFacts,
      resolve: quotedOf,
    }),
    difference: t.field({
      type: [Step],
      description: 'From quoted to net, step by step; the steps add up exactly.',
      select: differenceFacts,
      resolve: differenceOf,
    }),
    differenceEvidence: t.field({
      type: [StepEvidence],
      description:
        'What each step rests on, in the order of the steps: answers, times and lots. For the front desk and the manager; none for others.',
      select: { id: true },
      resolve: async ({ id }, _, context) =>
        (await context.roles()).some((role) => role === 'front_desk' || role === 'manager')
          ? differenceEvidence(context.read, id)
          : [],
    }),
    eInvoiceLacks: t.stringList({
      description:
        'Why there can be no e-invoice of it (EN 16931), a sentence each; none: there can. A draft is looked at with the shop and the payer as they are now.',
      select: { id: true },
      resolve: async ({ id }, _, context) => (await issuedDocument(context, id)).lacks,
    }),
    chainHash: t.string({
      nullable: true,
      description: "Hash of its link in the shop's chain, hexadecimal; null for a draft.",
      select: { id: true },
      resolve: ({ id }, _, context) => chainHash(context, 'invoice', id),
    }),
  }),
});

builder.prismaNode('InvoiceLine', {
  id: { field: 'id' },
  description:
    'A line of an invoice: quantity × unit price. What is held back is a line with a quantity of −1.',
  fields: (t) => ({
    position: t.exposeInt('position', { description: 'Its place, from 1.' }),
    title: t.exposeString('title', { description: 'What it is.' }),
    category: t.expose('category', { type: TaxCategory, description: 'What it is taxed with.' }),
    quantity: t.field({
      type: 'Decimal',
      description: 'How many; hours in tenths.',
      resolve: ({ quantity, unit }) =>
        unit === 'hour' && quantity.decimalPlaces() < 2 ? quantity.toFixed(1) : quantity.toFixed(),
    }),
    unit: t.exposeString('unit', {
      description: 'hour, each, job, or "not billed" for what is held back.',
    }),
    unitPrice: t.expose('unitPrice', { type: 'Decimal', description: 'Price of one.' }),
    net: t.expose('netMinor', { type: 'Minor', description: 'Before tax.' }),
    taxCode: t.exposeString('taxCode', { description: 'Category of tax by EN 16931.' }),
    taxRate: t.expose('taxRate', { type: 'Decimal', description: 'Per cent.' }),
    taxReason: t.exposeString('taxReason', {
      description: 'Why it is exempt from tax, where an exemption says so (BT-120); else nothing.',
    }),
    note: t.exposeString('note', {
      description: 'How it was reckoned, where whoever pays should know; else nothing.',
    }),
    core: t.exposeBoolean('core', {
      description: 'Whether it stands for an old part that had not come.',
    }),
    quoteLine: t.relation('quoteLine', { nullable: true, description: 'What it was sold as.' }),
    item: t.relation('item', { nullable: true, description: 'The work that it bills.' }),
    lot: t.relation('lot', { nullable: true, description: 'The lot that the part came from.' }),
  }),
});

builder.prismaNode('Payment', {
  id: { field: 'id' },
  description: 'Money that came in; below 0: that went back, or back to a deposit. Never changed.',
  fields: (t) => ({
    amount: t.expose('amountMinor', { type: 'Minor', description: 'How much.' }),
    method: t.exposeString('method', { description: 'By which way.' }),
    paidAt: t.expose('paidAt', { type: 'DateTime', description: 'When.' }),
    recordedAt: t.expose('recordedAt', { type: 'DateTime', description: 'When it was recorded.' }),
  }),
});

const asDrafted = {
  orderBy: [{ draftedAt: 'asc' }, { id: 'asc' }],
} satisfies Prisma.InvoiceFindManyArgs;

builder.prismaObjectFields('Aircraft', (t) => ({
  openInvoices: t.prismaField({
    type: ['Invoice'],
    description:
      'Issued invoices of all its orders on which something is owed, the oldest first. It is said when the aircraft is fetched and keeps nothing here (common practice, no source).',
    select: { id: true },
    resolve: async (query, { id }, _, { read }) => {
      const issued = await read.invoice.findMany({
        where: { order: { aircraftId: id }, issuedAt: { not: null }, creditsId: null },
        select: { id: true, ...owedFacts },
      });
      const open = issued.filter((invoice) => owedOf(invoice) > 0n).map((invoice) => invoice.id);
      return read.invoice.findMany({
        ...query,
        where: { id: { in: open } },
        orderBy: { number: 'asc' },
      });
    },
  }),
}));

builder.prismaObjectFields('WorkOrder', (t) => ({
  invoices: t.relation('invoices', {
    description: 'What was billed for it, and credited; in the order in which it was drafted.',
    query: asDrafted,
  }),
  unpaid: t.field({
    type: 'Minor',
    description:
      'What is still owed on its issued invoices; below 0: to be paid back. It is said at the hand-back and keeps nothing here.',
    select: { invoices: { ...asDrafted, select: owedFacts } },
    resolve: ({ invoices }) => invoices.reduce((sum, invoice) => sum + owedOf(invoice), 0n),
  }),
}));
