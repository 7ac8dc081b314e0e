import type { Ages, StatedEntry } from '@fairlead/money';
import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import { type Account, loadAccounts } from './load-accounts.ts';
import { type Entry, loadStatement, type StatementOfAccount } from './load-statement.ts';

const AgesType = builder.objectRef<Ages>('Ages').implement({
  description:
    'What is owed by how many days it is past its day. Thirty days a class: common practice, no source.',
  fields: (t) => ({
    notDue: t.expose('not_due', { type: 'Minor', description: 'Not past its day.' }),
    to30: t.expose('to_30', { type: 'Minor', description: 'Up to 30 days past it.' }),
    to60: t.expose('to_60', { type: 'Minor', description: '31 to 60 days.' }),
    to90: t.expose('to_90', { type: 'Minor', description: '61 to 90 days.' }),
    over90: t.expose('over_90', { type: 'Minor', description: 'Over 90 days.' }),
    total: t.expose('total', { type: 'Minor', description: 'All of them together.' }),
  }),
});

const AccountType = builder.objectRef<Account>('Account').implement({
  description: 'Where a payer stands, or all of them together, in one currency.',
  fields: (t) => ({
    contact: t.prismaField({
      type: 'Contact',
      nullable: true,
      description: 'Who pays; null: all together.',
      resolve: (query, { contactId }, _, { read }) =>
        contactId === '' ? null : read.contact.findUnique({ ...query, where: { id: contactId } }),
    }),
    currency: t.exposeString('currency', { description: 'ISO 4217 code of its amounts.' }),
    ages: t.expose('ages', { type: AgesType, description: 'What is owed, by age.' }),
    held: t.expose('held', {
      type: 'Minor',
      description: 'Deposits that are not set against an invoice yet.',
    }),
    toPayBack: t.expose('toPayBack', {
      type: 'Minor',
      description: 'On invoices on which more was paid than is owed.',
    }),
    balance: t.expose('balance', {
      type: 'Minor',
      description: 'Owed, less what is held and what is to be paid back.',
    }),
  }),
});

const EntryType = builder.objectRef<StatedEntry<Entry>>('AccountEntry').implement({
  description: 'Something that moved an account.',
  fields: (t) => ({
    on: t.field({
      type: 'Date',
      description: 'On which day, where the shop is.',
      resolve: ({ on }) => new Date(`${on}T00:00:00Z`),
    }),
    words: t.exposeString('words', { description: 'What it was.' }),
    amount: t.expose('amount', {
      type: 'Minor',
      description: 'Above 0: more is owed; below 0: less; 0: it only says what happened.',
    }),
    balance: t.expose('balance', { type: 'Minor', description: 'What stands after it.' }),
    invoiceId: t.id({
      nullable: true,
      description: 'The invoice that it is about.',
      resolve: ({ invoiceId }) => (invoiceId === null ? null : globalId('Invoice', invoiceId)),
    }),
  }),
});

const StatementType = builder.objectRef<StatementOfAccount>('StatementOfAccount').implement({
  description: 'What moved a payer’s account between two days, both included.',
  fields: (t) => ({
    currency: t.exposeString('currency', { description: 'ISO 4217 code of its amounts.' }),
    from: t.expose('from', { type: 'Date', description: 'First day.' }),
    until: t.expose('until', { type: 'Date', description: 'Last day.' }),
    opening: t.expose('opening', {
      type: 'Minor',
      description: 'What stood before the first day.',
    }),
    closing: t.expose('closing', { type: 'Minor', description: 'What stands after the last day.' }),
    entries: t.expose('entries', { type: [EntryType], description: 'In order.' }),
    account: t.expose('account', {
      type: AccountType,
      description: 'As it stands today, whatever the days asked for.',
    }),
    payBackOn: t.prismaField({
      type: ['Invoice'],
      description:
        'Invoices on which more was paid than is owed: so much is to be paid back today.',
      resolve: (query, { payBackOn }, _, { read }) =>
        read.invoice.findMany({
          ...query,
          where: { id: { in: payBackOn } },
          orderBy: { number: 'asc' },
        }),
    }),
  }),
});

const Accounts = builder.objectRef<{ payers: Account[]; whole: Account[] }>('Accounts').implement({
  description: 'Everybody on whose account anything is open.',
  fields: (t) => ({
    payers: t.expose('payers', {
      type: [AccountType],
      description: 'Each payer, the one who owes the most first.',
    }),
    whole: t.expose('whole', {
      type: [AccountType],
      description: 'All of them together, by currency.',
    }),
  }),
});

builder.queryFields((t) => ({
  accounts: t.field({
    type: Accounts,
    description:
      'What is owed to the shop, by payer and by age. For the front desk and the manager.',
    resolve: (_, __, context) => loadAccounts(context),
  }),
}));

builder.prismaObjectFields('Contact', (t) => ({
  statement: t.field({
    type: StatementType,
    description: 'Their statement of account. For the front desk and the manager.',
    args: {
      from: t.arg({ type: 'Date', description: 'Left out: the first of the year of the last.' }),
      until: t.arg({ type: 'Date', description: 'Left out: today.' }),
    },
    select: { id: true },
    resolve: ({ id }, { from, until }, context) =>
      loadStatement(context, id, { from: from ?? null, until: until ?? null }),
  }),
}));
