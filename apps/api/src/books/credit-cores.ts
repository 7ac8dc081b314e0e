import { documentTotals, formatAmount, currency as knownCurrency, minor } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey } from '../given.ts';
import { holdFor } from '../hold.ts';
import type { LineData } from './compose-invoice.ts';
import { type CoreToCredit, coreCreditFacts, coresToCredit } from './cores-to-credit.ts';

/**
 * Gives back the charge for old parts that came after they were billed, with a credit note of its own number. The invoice
 * stands otherwise. What is sent twice is one note.
 */
export async function creditCores(
  context: Context,
  input: { invoiceId: string; clientEventId: string | null },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const now = context.now();
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'payments of invoice', input.invoiceId);
    const invoice = await tx.invoice.findUnique({
      where: { id: input.invoiceId },
      select: {
        ...coreCreditFacts,
        ...{ number: true, issuedAt: true, creditsId: true, orderId: true, contactId: true },
      },
    });
    if (!invoice) throw notFound('invoice');
    const known = key && (await tx.invoice.findUnique({ where: { id: key } }));
    if (known && known.creditsId === invoice.id) return known.id;
    if (known)
      throw new Refused(
        'CONFLICT',
        'This clientEventId was used before, for something else: needed is a new one.',
        'clientEventId',
      );
    // decide
    if (!invoice.issuedAt || invoice.creditsId)
      throw new Refused(
        'AGAINST_RULE',
        `${invoice.creditsId ? `${invoice.number} is a credit note` : 'This is a draft'}: cores are given back on an issued invoice.`,
        'invoiceId',
      );
    const cores = coresToCredit(invoice);
    if (cores.length === 0)
      throw new Refused(
        'AGAINST_RULE',
        `On invoice ${invoice.number} there is no core to give back: needed is an old part that came after it was billed and is not credited yet.`,
        'invoiceId',
      );
    const lines = cores.map((core, index) => creditLine(core, index + 1, invoice.currency));
    const totals = documentTotals({
      currency: knownCurrency(invoice.currency),
      lines: lines.map(({ netMinor, taxCode, taxRate, position }) => ({
        id: `${position}`,
        quantity: '-1',
        unitPrice: formatAmount(minor(-netMinor), knownCurrency(invoice.currency)),
        taxCategory: taxCode as 'S',
        taxRate: String(taxRate),
      })),
    });
    // save
    const { orderId, contactId, currency } = invoice;
    const note = await tx.invoice.create({
      data: {
        ...(key && { id: key }),
        ...{ orderId, contactId, currency, agreedMinor: 0n, creditsId: invoice.id, inPart: true },
        ...{ draftedAt: now, draftedById: personId },
        ...{ netMinor: totals.net, taxMinor: totals.taxTotal, grossMinor: totals.gross },
      },
      select: { id: true },
    });
    await tx.invoiceLine.createMany({
      data: lines.map((line) => ({ ...line, invoiceId: note.id })),
    });
    // The last statement: until it commits, other invoices wait for their number.
    await tx.invoice.update({
      where: { id: note.id },
      data: { issuedAt: now, issuedById: personId },
      select: { id: true },
    });
    return note.id;
  });
}

/** So many at the charge; as one piece where something of them had been held back. */
function creditLine(
  { line, quantity, amount }: CoreToCredit,
  position: number,
  code: string,
): LineData {
  const { category, quoteLineId, itemId, lotId, taxCode, exemptionId, taxReason } = line;
  const each = line.unitPrice.toFixed();
  const whole = line.unitPrice.mul(quantity).toFixed();
  const asCharged = Number(whole) === Number(formatAmount(amount, knownCurrency(code)));
  return {
    ...{ position, category, quoteLineId, itemId, lotId, taxCode, exemptionId, taxReason },
    taxRate: line.taxRate,
    core: true,
    title: `${line.title.replace(/: charged until the old one comes back$/, '')}: the old one came back`,
    quantity: asCharged ? `-${quantity}` : '-1',
    unit: 'each',
    unitPrice: asCharged ? each : formatAmount(amount, knownCurrency(code)),
    note: asCharged ? '' : `${quantity} came back; so much of their charge had been billed`,
    netMinor: -amount,
  };
}
