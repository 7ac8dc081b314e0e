import { closingCredit, currency as knownCurrency, minor, type TaxCategory } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { freeDeposits } from './set-deposits-against.ts';

/**
 * Takes back an issued invoice whole, with a credit note of its own number and the same lines, negative. The order
 * can be billed again after that. What of it was given back for cores before is not given back twice: what it comes to is
 * exactly what remains. Credited before, it answers with the note that is there.
 */
export async function creditInvoice(
  context: Context,
  { invoiceId }: { invoiceId: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const now = context.now();
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'payments of invoice', invoiceId);
    const invoice = await tx.invoice.findUnique({
      where: { id: invoiceId },
      include: {
        lines: { orderBy: { position: 'asc' } },
        creditNotes: {
          where: { issuedAt: { not: null } },
          include: { lines: { orderBy: { position: 'asc' } } },
        },
      },
    });
    if (!invoice) throw notFound('invoice');
    // decide
    const known = invoice.creditNotes.find(({ inPart }) => !inPart);
    if (known) return known.id;
    if (!invoice.issuedAt)
      throw new Refused(
        'AGAINST_RULE',
        'A draft cannot be credited: draft it again instead.',
        'invoiceId',
      );
    if (invoice.creditsId)
      throw new Refused(
        'AGAINST_RULE',
        `${invoice.number} is a credit note: bill the order again instead.`,
        'invoiceId',
      );
    // save
    const { orderId, contactId, currency, agreedMinor, payerShareId, saleId } = invoice;
    // Cores that were given back before are not given back again.
    const standing = [invoice, ...invoice.creditNotes];
    const closing = closingCredit(
      knownCurrency(currency),
      standing.map(({ lines, grossMinor }) => ({
        gross: minor(grossMinor),
        lines: lines.map(({ netMinor, taxCode, taxRate }) => ({
          net: minor(netMinor),
          taxCategory: taxCode as TaxCategory,
          taxRate: taxRate.toFixed(),
        })),
      })),
    );
    const note = await tx.invoice.create({
      data: {
        orderId,
        contactId,
        currency,
        agreedMinor,
        payerShareId,
        saleId,
        creditsId: invoice.id,
        draftedAt: now,
        draftedById: personId,
        netMinor: closing.net,
        taxMinor: closing.tax,
        roundingMinor: closing.rounding,
        grossMinor: closing.gross,
      },
      select: { id: true },
    });
    const lines = standing.flatMap((each) => each.lines);
    await tx.invoiceLine.createMany({
      data: lines.map(({ id: _id, shopId: _shop, ...line }, index) => ({
        ...line,
        position: index + 1,
        invoiceId: note.id,
        quantity: line.quantity.negated(),
        netMinor: -line.netMinor,
      })),
    });
    await freeDeposits(tx, { orderId, invoiceId: invoice.id, now, personId });
    // The last statement: until it commits, other invoices wait for their number.
    await tx.invoice.update({
      where: { id: note.id },
      data: { issuedAt: now, issuedById: personId },
      select: { id: true },
    });
    return note.id;
  });
}
