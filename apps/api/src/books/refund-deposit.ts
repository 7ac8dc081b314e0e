import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey } from '../given.ts';
import { depositFacts, holdDeposits, leftOf } from './deposits-of.ts';
import { givenMoneyIn, sayMoney } from './given-money-in.ts';

export interface RefundDepositInput {
  depositId: string;
  amount: bigint;
  method: string;
  paidAt: Date | null;
  clientEventId: string | null;
}

/** Pays back what is left of a deposit, or a part of it: never more than is left. */
export async function refundDeposit(context: Context, input: RefundDepositInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const now = context.now();
  const { method, paidAt } = givenMoneyIn(input, now);
  const { depositId, amount } = input;
  return context.write(async (tx) => {
    // load
    const where = { id: depositId };
    const of = await tx.deposit.findUnique({ where, select: { orderId: true } });
    if (!of) throw notFound('deposit');
    await holdDeposits(tx, of.orderId);
    const deposit = await tx.deposit.findUniqueOrThrow({
      where,
      select: {
        ...{ number: true, currency: true, ...depositFacts },
        refunds: { select: { id: true, amountMinor: true } },
      },
    });
    // decide
    if (deposit.refunds.some(({ id }) => id === key)) return depositId;
    const left = leftOf(deposit);
    if (amount <= 0n || amount > left)
      throw new Refused(
        amount <= 0n ? 'BAD_INPUT' : 'AGAINST_RULE',
        `Paying back ${sayMoney(amount, deposit.currency)} of the deposit of receipt ${deposit.number} was refused: needed is more than 0 and at most what is left, ${sayMoney(left, deposit.currency)}.`,
        'amount',
      );
    // save
    await tx.depositRefund.create({
      data: {
        ...(key && { id: key }),
        ...{ depositId, amountMinor: amount, method, paidAt },
        ...{ recordedAt: now, recordedById: personId },
      },
      select: { id: true },
    });
    return depositId;
  });
}
