import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey } from '../given.ts';
import { holdFor } from '../hold.ts';
import { givenMoneyIn, sayMoney } from './given-money-in.ts';
import { owedFacts, owedOf } from './owed.ts';

export interface PayBackInput {
  invoiceId: string;
  amount: bigint;
  method: string;
  paidAt: Date | null;
  clientEventId: string | null;
}

/**
 * Records money that went back to whoever paid more on an invoice than is owed, as after a credit note: never more than
 * that. It is a payment below 0, so that paid and owed need no second rule.
 */
export async function payBack(context: Context, input: PayBackInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const now = context.now();
  const { method, paidAt } = givenMoneyIn(input, now);
  const { invoiceId, amount } = input;
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'payments of invoice', invoiceId);
    const invoice = await tx.invoice.findUnique({
      where: { id: invoiceId },
      select: {
        ...{ number: true, currency: true, ...owedFacts },
        payments: { select: { id: true, amountMinor: true } },
      },
    });
    if (!invoice) throw notFound('invoice');
    // decide
    if (invoice.payments.some(({ id }) => id === key)) return invoiceId;
    const owed = owedOf(invoice);
    const most = owed < 0n ? -owed : 0n;
    if (amount <= 0n || amount > most)
      throw new Refused(
        amount <= 0n ? 'BAD_INPUT' : 'AGAINST_RULE',
        `Paying back ${sayMoney(amount, invoice.currency)} on ${invoice.number === null ? 'a draft' : `invoice ${invoice.number}`} was refused: needed is more than 0 and at most what is to be paid back, ${sayMoney(most, invoice.currency)}.`,
        'amount',
      );
    // save
    await tx.payment.create({
      data: {
        ...(key && { id: key }),
        ...{ invoiceId, amountMinor: -amount, method, paidAt },
        ...{ recordedAt: now, recordedById: personId },
      },
      select: { id: true },
    });
    return invoiceId;
  });
}
