import type { Prisma } from '@fairlead/database';
import { minor } from '@fairlead/money';
import {
  type IssuedDocument,
  type Party,
  type Seller,
  whyNotEInvoice,
} from '@fairlead/money/e-invoice';
import { civilDay } from '../civil-day.ts';
import type { Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { sayDay } from '../given.ts';
import { addressColumns } from '../postal-address.ts';
import { paidOf } from './owed.ts';

const registrations = {
  vatNumber: true,
  taxNumber: true,
  registrationNumber: true,
  exemptionReason: true,
} as const;

const facts = {
  number: true,
  currency: true,
  netMinor: true,
  taxMinor: true,
  grossMinor: true,
  roundingMinor: true,
  issuedAt: true,
  dueOn: true,
  seller: true,
  buyer: true,
  contact: { select: { name: true, ...addressColumns } },
  inPart: true,
  credits: { select: { number: true, issuedAt: true } },
  lines: { orderBy: { position: 'asc' } },
  payments: { select: { amountMinor: true } },
  order: { select: { number: true, title: true, aircraft: { select: { registration: true } } } },
} satisfies Prisma.InvoiceSelect;

/** An invoice as its e-invoice would be: who billed whom as it was issued; for a draft, as they are now. */
export async function issuedDocument(
  context: Context,
  id: string,
): Promise<{ document: IssuedDocument; issued: boolean; lacks: string[] }> {
  const invoice = await context.read.invoice.findUnique({ where: { id }, select: facts });
  if (!invoice) throw notFound('invoice');
  const shop = await context.read.shop.findFirstOrThrow({
    select: { name: true, timeZone: true, ...addressColumns, ...registrations },
  });
  const { order, credits, issuedAt, dueOn } = invoice;
  const day = (instant: Date) => sayDay(civilDay(instant, shop.timeZone));
  const paid = paidOf(invoice);
  const document: IssuedDocument = {
    number: `${invoice.number ?? ''}`,
    issuedOn: day(issuedAt ?? context.now()),
    dueOn: dueOn && sayDay(dueOn),
    notes: [
      `${order.aircraft.registration}, order ${order.number}: ${order.title}`,
      ...(paid === 0n ? [] : [`What was paid and is due is said as of ${day(context.now())}.`]),
    ],
    currency: invoice.currency,
    // Written by the database when it was issued, in the shape that a party has.
    seller: issuedAt ? (invoice.seller as Seller | null) : known(shop),
    buyer: issuedAt ? (invoice.buyer as Party | null) : known(invoice.contact),
    lines: invoice.lines.map((line) => ({
      position: line.position,
      title: line.title,
      quantity: line.quantity.toFixed(),
      unit: line.unit,
      unitPrice: line.unitPrice.toFixed(),
      net: minor(line.netMinor),
      taxCategory: line.taxCode,
      taxRate: line.taxRate.toFixed(),
      ...(line.taxReason !== '' && { taxReason: line.taxReason }),
    })),
    net: minor(invoice.netMinor),
    tax: minor(invoice.taxMinor),
    gross: minor(invoice.grossMinor),
    rounding: minor(invoice.roundingMinor),
    paid: minor(paid),
    credits:
      credits?.issuedAt && credits.number !== null
        ? {
            ...{ number: `${credits.number}`, issuedOn: day(credits.issuedAt) },
            inPart: invoice.inPart,
          }
        : null,
  };
  return { document, issued: issuedAt !== null, lacks: whyNotEInvoice(document) };
}

/** A row without what is not known. */
const known = <T extends { name: string }>(row: T) =>
  Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)) as unknown as Party;
