import { currency, formatMoney, minor } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey, givenText, sayMinute } from '../given.ts';
import { holdFor } from '../hold.ts';
import { owedFacts, owedOf } from './owed.ts';

export interface RecordPaymentInput {
  invoiceId: string;
  amount: bigint;
  method: string;
  /** Left out: now. */
  paidAt: Date | null;
  /** Made by the page; it becomes the payment's key, so that a payment sent twice is one. */
  clientEventId: string | null;
}

const AHEAD_MS = 60_000;

/** Records money that came in for an issued invoice: never more than is owed. */
export async function recordPayment(context: Context, input: RecordPaymentInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const method = givenText(input.method, 'method', { least: 1, most: 60 });
  const now = context.now();
  const paidAt = input.paidAt ?? now;
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'payments of invoice', input.invoiceId);
    const invoice = await tx.invoice.findUnique({
      where: { id: input.invoiceId },
      select: {
        id: true,
        number: true,
        currency: true,
        ...owedFacts,
        payments: { select: { id: true, amountMinor: true, method: true, paidAt: true } },
      },
    });
    if (!invoice) throw notFound('invoice');
    // decide
    if (invoice.payments.some(({ id }) => id === key)) return invoice.id;
    const say = (amount: bigint) =>
      `${formatMoney(minor(amount), currency(invoice.currency))} ${invoice.currency}`;
    if (!invoice.issuedAt)
      throw new Refused(
        'AGAINST_RULE',
        'A payment on a draft was refused: issue the invoice first.',
        'invoiceId',
      );
    if (invoice.creditsId)
      throw new Refused(
        'AGAINST_RULE',
        `${invoice.number} is a credit note: nothing is paid in on it.`,
        'invoiceId',
      );
    const twin = invoice.payments.find(
      (known) =>
        known.amountMinor === input.amount &&
        known.method === method &&
        known.paidAt.getTime() === paidAt.getTime(),
    );
    if (twin)
      throw new Refused(
        'CONFLICT',
        `This payment is recorded already: ${say(input.amount)}, ${method}, ${sayMinute(paidAt)}.`,
      );
    const owed = owedOf(invoice);
    if (input.amount <= 0n || input.amount > owed)
      throw new Refused(
        input.amount <= 0n ? 'BAD_INPUT' : 'AGAINST_RULE',
        `A payment of ${say(input.amount)} on invoice ${invoice.number} was refused: needed is more than 0 and at most what is owed, ${say(owed)}.`,
        'amount',
      );
    if (
      paidAt.getTime() > now.getTime() + AHEAD_MS ||
      paidAt.getTime() < invoice.issuedAt.getTime() - 366 * 86_400_000
    )
      throw new Refused(
        'BAD_INPUT',
        `paidAt is ${sayMinute(paidAt)}: needed is a time up to now, ${sayMinute(now)}.`,
        'paidAt',
      );
    // save
    await tx.payment.create({
      data: {
        ...(key && { id: key }),
        invoiceId: invoice.id,
        amountMinor: input.amount,
        method,
        paidAt,
        recordedAt: now,
        recordedById: personId,
      },
    });
    return invoice.id;
  });
}
