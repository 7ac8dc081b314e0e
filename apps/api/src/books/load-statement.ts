import { type AccountEntry, minor, type Statement, statement } from '@fairlead/money';
import { civilDay } from '../civil-day.ts';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { shopToday } from '../today.ts';
import { sayMoney } from './given-money-in.ts';
import { type Account, accountOf } from './load-accounts.ts';
import { heldDeposits, openInvoices } from './open-amounts.ts';

export interface Entry extends AccountEntry {
  words: string;
  invoiceId: string | null;
}

export interface StatementOfAccount extends Statement<Entry> {
  contactId: string;
  currency: string;
  from: Date;
  until: Date;
  /** As it stands today, whatever the stretch. */
  account: Account;
  /** Invoices on which more was paid than is owed. */
  payBackOn: string[];
}

const LONGEST_DAYS = 3660;

/** A payer's statement of account between two days, in the shop's currency. Left out: from the first of the year to today. */
export async function loadStatement(
  context: Context,
  contactId: string,
  asked: { from: Date | null; until: Date | null },
): Promise<StatementOfAccount> {
  await allow(context, 'front_desk', 'manager');
  const today = await shopToday(context);
  const until = asked.until ?? today;
  const from = asked.from ?? new Date(Date.UTC(until.getUTCFullYear(), 0, 1));
  const days = (until.getTime() - from.getTime()) / 86_400_000;
  if (days < 0 || days > LONGEST_DAYS)
    throw new Refused(
      'BAD_INPUT',
      `A statement from ${sayDay(from)} to ${sayDay(until)} was refused: needed are two days in order, at most ten years apart.`,
      'until',
    );
  const { read } = context;
  const shop = await read.shop.findFirstOrThrow({ select: { currency: true, timeZone: true } });
  const entries = await entriesOf(context, contactId, shop);
  const theirs = (each: { currency: string }) => each.currency === shop.currency;
  const open = (await openInvoices(read, contactId)).filter(theirs);
  const held = (await heldDeposits(read, contactId)).filter(theirs);
  const who = { contactId, currency: shop.currency };
  return {
    ...who,
    ...{ from, until },
    ...statement(entries, sayDay(from), sayDay(until)),
    account: accountOf(who, open, held, sayDay(today)),
    payBackOn: open.flatMap(({ id, owed }) => (owed < 0n ? [id] : [])),
  };
}

/** All that ever moved the account, in the order in which it happened. */
/** What happened at one instant stays in the order in which it was recorded. */
const inOrder = [{ paidAt: 'asc' as const }, { id: 'asc' as const }];

async function entriesOf(
  { read }: Context,
  contactId: string,
  { currency, timeZone }: { currency: string; timeZone: string },
): Promise<Entry[]> {
  const invoices = await read.invoice.findMany({
    where: { contactId, currency, issuedAt: { not: null } },
    orderBy: { number: 'asc' },
    select: {
      ...{ id: true, number: true, issuedAt: true, grossMinor: true, inPart: true },
      credits: { select: { number: true } },
      order: { select: { aircraft: { select: { registration: true } } } },
    },
  });
  const payments = await read.payment.findMany({
    where: {
      OR: [{ invoice: { contactId, currency } }, { deposit: { contactId, currency } }],
    },
    orderBy: inOrder,
    select: {
      ...{ amountMinor: true, method: true, paidAt: true },
      invoice: { select: { id: true, number: true, contactId: true } },
      deposit: { select: { contactId: true } },
    },
  });
  const deposits = await read.deposit.findMany({
    where: { contactId, currency },
    orderBy: inOrder,
    select: {
      ...{
        number: true,
        amountMinor: true,
        method: true,
        paidAt: true,
        refunds: { orderBy: inOrder },
      },
      order: { select: { number: true, aircraft: { select: { registration: true } } } },
    },
  });
  const happened = [
    ...invoices.map(({ id, number, issuedAt, grossMinor, credits, inPart, order }) => ({
      at: issuedAt ?? new Date(0),
      amount: grossMinor,
      words: credits
        ? `Credit note ${number}, takes back ${inPart ? 'cores on ' : ''}invoice ${credits.number}`
        : `Invoice ${number}, ${order.aircraft.registration}`,
      invoiceId: id,
    })),
    ...deposits.flatMap(({ number, amountMinor, method, paidAt, refunds, order }) => [
      {
        at: paidAt,
        amount: -amountMinor,
        words: `Deposit, receipt ${number}, for order ${order.number}, ${order.aircraft.registration}, ${method}`,
        invoiceId: null,
      },
      ...refunds.map((refund) => ({
        at: refund.paidAt,
        amount: refund.amountMinor,
        words: `Paid back of the deposit of receipt ${number}, ${refund.method}`,
        invoiceId: null,
      })),
    ]),
    ...payments.map(({ amountMinor, method, paidAt, invoice, deposit }) => {
      // Set from a deposit it is no money that came in: it moves from the account of whose deposit it is to the invoice's.
      const theirInvoice = invoice.contactId === contactId ? -amountMinor : 0n;
      const theirDeposit = deposit?.contactId === contactId ? amountMinor : 0n;
      const size = sayMoney(amountMinor < 0n ? -amountMinor : amountMinor, currency);
      return {
        at: paidAt,
        amount: theirInvoice + theirDeposit,
        words: deposit
          ? `${amountMinor < 0n ? 'Freed from' : 'Set against'} invoice ${invoice.number}: ${size} of the ${method}`
          : `${amountMinor < 0n ? 'Paid back' : 'Paid'} on invoice ${invoice.number}, ${method}`,
        invoiceId: invoice.id,
      };
    }),
  ];
  return happened
    .sort((one, other) => one.at.getTime() - other.at.getTime())
    .map(({ at, amount, ...entry }) => ({
      ...entry,
      amount: minor(amount),
      on: sayDay(civilDay(at, timeZone)),
    }));
}
