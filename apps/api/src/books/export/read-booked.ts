import type { Prisma, Tx } from '@fairlead/database';
import { civilDay } from '../../civil-day.ts';
import { owedFacts } from '../owed.ts';

const booked = {
  ...{
    id: true,
    number: true,
    currency: true,
    dueOn: true,
    netMinor: true,
    taxMinor: true,
    roundingMinor: true,
  },
  ...owedFacts,
  contact: { select: { name: true, country: true } },
  credits: { select: { number: true } },
  order: { select: { number: true, aircraft: { select: { registration: true } } } },
  lines: { orderBy: { position: 'asc' } },
} satisfies Prisma.InvoiceSelect;

export type BookedInvoice = Prisma.InvoiceGetPayload<{ select: typeof booked }> & {
  issuedOn: Date;
};

/** Two days, both included, where the shop is. */
export interface Stretch {
  from: Date;
  until: Date;
  timeZone: string;
}

const DAY_MS = 86_400_000;
const AT_ONCE = 200;

/** A little more than the days asked for, whatever the time zone: which day it is there is decided one by one. */
const around = ({ from, until }: Stretch) => ({
  gte: new Date(from.getTime() - DAY_MS),
  lt: new Date(until.getTime() + 2 * DAY_MS),
});

const within = ({ from, until, timeZone }: Stretch, instant: Date): Date | null => {
  const day = civilDay(instant, timeZone);
  return day >= from && day <= until ? day : null;
};

/** Invoices and credit notes issued in the stretch, by number, so many at a time: a year of them is never in memory at once. */
export async function* bookedInvoices(read: Tx, stretch: Stretch): AsyncGenerator<BookedInvoice> {
  let after = 0;
  for (;;) {
    const invoices = await read.invoice.findMany({
      where: { number: { gt: after }, issuedAt: around(stretch) },
      orderBy: { number: 'asc' },
      take: AT_ONCE,
      select: booked,
    });
    for (const invoice of invoices) {
      const issuedOn = invoice.issuedAt && within(stretch, invoice.issuedAt);
      if (issuedOn) yield { ...invoice, issuedOn };
      after = invoice.number ?? after;
    }
    if (invoices.length < AT_ONCE) return;
  }
}

/** Money that came or went, or that was set from a deposit. */
export interface BookedMoney {
  on: Date;
  kind:
    | 'payment'
    | 'deposit'
    | 'deposit set against invoice'
    | 'deposit freed from invoice'
    | 'deposit paid back'
    | 'paid back';
  document: string;
  payer: string;
  method: string;
  currency: string;
  received: bigint;
  setAgainst: bigint;
}

/** Everything that moved money in the stretch, in order. */
export async function bookedMoney(read: Tx, stretch: Stretch): Promise<BookedMoney[]> {
  const paidAt = around(stretch);
  const payments = await read.payment.findMany({
    where: { paidAt },
    orderBy: { id: 'asc' },
    select: {
      ...{ amountMinor: true, method: true, paidAt: true, depositId: true },
      invoice: { select: { number: true, currency: true, contact: { select: { name: true } } } },
    },
  });
  const deposits = await read.deposit.findMany({
    where: { paidAt },
    orderBy: { id: 'asc' },
    include: { contact: { select: { name: true } } },
  });
  const refunds = await read.depositRefund.findMany({
    where: { paidAt },
    orderBy: { id: 'asc' },
    include: { deposit: { include: { contact: { select: { name: true } } } } },
  });
  const moved: (Omit<BookedMoney, 'on'> & { at: Date })[] = [
    // At one instant a deposit came before it was set.
    ...deposits.map(({ number, amountMinor, method, paidAt: at, currency, contact }) => ({
      ...{ at, method, currency, payer: contact.name, kind: 'deposit' as const },
      ...{ document: `receipt ${number}`, received: amountMinor, setAgainst: 0n },
    })),
    ...payments.map(({ amountMinor, method, paidAt: at, depositId, invoice }) => ({
      ...{ at, method, currency: invoice.currency, payer: invoice.contact.name },
      document: `invoice ${invoice.number}`,
      kind:
        depositId === null
          ? amountMinor < 0n
            ? ('paid back' as const)
            : ('payment' as const)
          : amountMinor < 0n
            ? ('deposit freed from invoice' as const)
            : ('deposit set against invoice' as const),
      received: depositId === null ? amountMinor : 0n,
      setAgainst: depositId === null ? 0n : amountMinor,
    })),
    ...refunds.map(({ amountMinor, method, paidAt: at, deposit }) => ({
      ...{ at, method, currency: deposit.currency, payer: deposit.contact.name },
      ...{ kind: 'deposit paid back' as const, document: `receipt ${deposit.number}` },
      ...{ received: -amountMinor, setAgainst: 0n },
    })),
  ];
  return moved
    .sort((one, other) => one.at.getTime() - other.at.getTime())
    .flatMap(({ at, ...money }) => {
      const on = within(stretch, at);
      return on ? [{ on, ...money }] : [];
    });
}
