import { currency, formatMoney, minor } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { globalId } from '../ids.ts';
import { queueMail } from '../post/index.ts';
import { mailFacts, mailState } from '../states.ts';
import { issuedDocument } from './issued-document.ts';
import { owedFacts, owedOf } from './owed.ts';

/** Mails an issued invoice or credit note to who pays, with its PDF and, where there can be one, its e-invoice. */
export async function sendInvoice(
  context: Context,
  { invoiceId }: { invoiceId: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  // load
  const { issued, lacks } = await issuedDocument(context, invoiceId);
  if (!issued)
    throw new Refused(
      'AGAINST_RULE',
      'A draft is not mailed: it has no number and asks for no payment. Issue it first.',
      'invoiceId',
    );
  const now = context.now();
  return context.write(async (tx) => {
    await holdFor(tx, 'mail of invoice', invoiceId);
    const invoice = await tx.invoice.findUnique({
      where: { id: invoiceId },
      select: {
        ...{ number: true, currency: true, dueOn: true, orderId: true, contact: true },
        ...{ order: { select: { title: true, aircraft: { select: { registration: true } } } } },
        ...{ mails: { select: { toAddress: true, ...mailFacts } }, ...owedFacts },
      },
    });
    if (!invoice) throw notFound('invoice');
    const { contact, order, number } = invoice;
    const name = `${invoice.creditsId ? 'Credit note' : 'Invoice'} ${number}`;
    // decide
    if (!contact.email)
      throw new Refused(
        'AGAINST_RULE',
        `${name} was not mailed: ${contact.name} has no e-mail address. Give them one first.`,
        'invoiceId',
      );
    if (invoice.mails.some((mail) => mailState(mail) === 'waits'))
      throw new Refused('CONFLICT', `${name} waits to be sent already: see the Post.`, 'invoiceId');
    // save
    const shop = await tx.shop.findFirstOrThrow({ select: { name: true, place: true } });
    const owed = owedOf(invoice);
    const amount = `${formatMoney(minor(owed), currency(invoice.currency))} ${invoice.currency}`;
    const about = `${order.aircraft.registration}, ${order.title}`;
    return queueMail(tx, {
      to: { address: contact.email, name: contact.name },
      subject: `${name}: ${about}`,
      paragraphs: [
        `${contact.name}, this is ${name.toLowerCase()} of ${shop.name}, for ${about}.`,
        owed > 0n && invoice.dueOn ? `Owed on it: ${amount}, by ${sayDay(invoice.dueOn)}.` : '',
        lacks.length === 0
          ? 'It goes with this mail as a PDF, and as an e-invoice for a program to read (EN 16931, UBL 2.1).'
          : 'It goes with this mail as a PDF.',
        `${shop.name}\n${shop.place}`,
      ],
      papers: [
        { paper: 'invoice', subject: globalId('Invoice', invoiceId) },
        ...(lacks.length === 0
          ? [{ paper: 'invoice.xml', subject: globalId('Invoice', invoiceId) }]
          : []),
      ],
      about: {
        words: `${name}, ${order.aircraft.registration}`,
        invoiceId,
        orderId: invoice.orderId,
      },
      queuedById: personId,
      now,
    });
  });
}
