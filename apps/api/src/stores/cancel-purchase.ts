import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { purchaseForChange, stateWords } from './purchase-for-change.ts';
import { openOf } from './purchase-state.ts';

export interface CancelPurchaseInput {
  orderId: string;
  reason: string;
}

/** Nothing more is expected of an order. What came of it stays; its number is not given again. */
export async function cancelPurchase(
  context: Context,
  input: CancelPurchaseInput,
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const reason = givenText(input.reason, 'reason', { least: 3, most: 300 });
  return context.write(async (tx) => {
    // load
    const order = await purchaseForChange(tx, input.orderId);
    // decide
    if (order.state === 'cancelled' || order.state === 'received')
      throw new Refused(
        'AGAINST_RULE',
        `Purchase order ${order.number} is ${stateWords[order.state]}: there is nothing left to cancel.`,
        'orderId',
      );
    // save
    const at = context.now();
    await tx.purchaseEvent.create({
      data: { orderId: order.id, kind: 'cancelled', reason, at, byId: personId },
      select: { id: true },
    });
    // Whoever waits for what will not come is told that nobody knows when.
    if (order.state !== 'draft' && order.expectedOn)
      await tx.expectation.createMany({
        data: order.lines
          .filter((line) => !openOf(line).isZero())
          .map(({ part }) => ({
            partId: part.id,
            what: part.title,
            expectedOn: null,
            saidBy: order.supplier,
            notedAt: at,
            notedById: personId,
          })),
      });
    return order.id;
  });
}
