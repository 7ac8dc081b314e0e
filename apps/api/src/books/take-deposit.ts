import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey, sayMinute } from '../given.ts';
import { orderFacts, orderState } from '../states.ts';
import { holdDeposits } from './deposits-of.ts';
import { givenMoneyIn, sayMoney } from './given-money-in.ts';

export interface TakeDepositInput {
  orderId: string;
  /** Whose money it is. */
  contactId: string;
  amount: bigint;
  method: string;
  paidAt: Date | null;
  /** Made by the page; it becomes the deposit's key, so that one sent twice is one. */
  clientEventId: string | null;
}

/** Takes money for an order before there is an invoice. It is set against the invoice when that is issued. */
export async function takeDeposit(context: Context, input: TakeDepositInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const now = context.now();
  const { method, paidAt } = givenMoneyIn(input, now);
  const { orderId, contactId, amount } = input;
  return context.write(async (tx) => {
    // load
    await holdDeposits(tx, orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: {
        number: true,
        ...orderFacts,
        deposits: true,
        invoices: {
          where: {
            saleId: null,
            creditsId: null,
            issuedAt: { not: null },
            creditNotes: { none: { issuedAt: { not: null }, inPart: false } },
          },
          select: { number: true },
        },
      },
    });
    if (!order) throw notFound('order');
    const contact = await tx.contact.findUnique({ where: { id: contactId }, select: { id: true } });
    if (!contact) throw notFound('contact');
    const { currency } = await tx.shop.findFirstOrThrow({ select: { currency: true } });
    // decide
    const known = order.deposits.find(({ id }) => id === key);
    if (known) return known.id;
    if (amount <= 0n)
      throw new Refused(
        'BAD_INPUT',
        `A deposit of ${sayMoney(amount, currency)} was refused: needed is more than 0.`,
        'amount',
      );
    const state = orderState(order);
    if (state === 'cancelled' || state === 'closed')
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} is ${state}: no deposit is taken for it.`,
      );
    const [billed] = order.invoices;
    if (billed)
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} is billed already: record a payment on invoice ${billed.number} instead.`,
      );
    const twin = order.deposits.find(
      (each) =>
        each.amountMinor === amount &&
        each.method === method &&
        each.paidAt.getTime() === paidAt.getTime(),
    );
    if (twin)
      throw new Refused(
        'CONFLICT',
        `This deposit is recorded already: ${sayMoney(amount, currency)}, ${method}, ${sayMinute(paidAt)}, receipt ${twin.number}.`,
      );
    // save
    const { id } = await tx.deposit.create({
      data: {
        ...(key && { id: key }),
        ...{ orderId, contactId, currency, amountMinor: amount, method, paidAt },
        ...{ recordedAt: now, recordedById: personId },
      },
      select: { id: true },
    });
    return id;
  });
}
