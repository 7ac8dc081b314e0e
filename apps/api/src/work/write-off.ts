import { currency, formatAmount } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { beyondAuthority, writeOffFacts } from './beyond-authority.ts';
import { costFacts, costSoFar } from './cost-so-far.ts';
import { priceUnder } from './price-of-work.ts';
import { agreedFacts } from './queries.ts';

export interface WriteOffInput {
  orderId: string;
  /** Net, minor units. */
  amount: bigint;
  reason: string;
}

/** Says under a name that work past the owner's yes is the shop's own. No more than is beyond authority now. */
export async function writeOff(context: Context, input: WriteOffInput): Promise<string> {
  const { personId } = await allow(context, 'manager');
  const reason = givenText(input.reason, 'reason', { least: 3, most: 500 });
  const day = await shopToday(context);
  return context.write(async (tx) => {
    await holdFor(tx, 'order', input.orderId);
    const price = await priceUnder(tx, day);
    const order = await tx.workOrder.findUnique({
      where: { id: input.orderId },
      select: {
        number: true,
        ...agreedFacts,
        ...costFacts,
        writeOffs: writeOffFacts,
      },
    });
    if (!order) throw notFound('order');
    const open = beyondAuthority(order, costSoFar(order, price, context.now()), price.overrun);
    if (open === null || input.amount <= 0n || input.amount > open)
      throw new Refused(
        'BAD_INPUT',
        `${say(input.amount)} was to be written off of order ${order.number}: needed is more than 0, and at most what is beyond authority, ${open === null ? 'which has no price yet' : say(open)}.`,
        'amount',
      );
    await tx.writeOff.create({
      data: {
        ...{ orderId: input.orderId, amountMinor: input.amount, reason },
        ...{ at: context.now(), byId: personId },
      },
      select: { id: true },
    });
    return input.orderId;

    function say(amount: bigint): string {
      return `${formatAmount(amount as Parameters<typeof formatAmount>[0], currency(price.currency))} ${price.currency}`;
    }
  });
}
