import { Prisma, type Tx } from '@fairlead/database';
import { refuseBilledToSeller } from '../billed-to-seller.ts';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenKey, givenQuantity } from '../given.ts';
import { leftOfIssues } from '../work/queries.ts';
import type { MovePartInput } from './issue-part.ts';
import {
  holdOrderOf,
  itemOfOpenOrder,
  lotForChange,
  movedBefore,
  onItem,
} from './lot-for-change.ts';

/** Puts back into its lot what an item did not need. Never more than that item had from it. */
export async function returnPart(context: Context, input: MovePartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  return context.write(async (tx) => {
    // load
    await holdOrderOf(tx, input.itemId);
    const lot = await lotForChange(tx, input.lotId);
    const before = await movedBefore(tx, key, { ...input, kind: 'return' });
    if (before) return before;
    const item = await itemOfOpenOrder(tx, input.itemId);
    const there = await onItem(tx, lot.id, item.id);
    // decide
    if (Number(quantity) > there)
      throw new Refused(
        'AGAINST_RULE',
        `${quantity} of ${lot.name} cannot come back from item ${item.position}, “${item.title}”: it had ${there} of that lot.`,
        'quantity',
      );
    await refuseBilledToSeller(
      tx,
      item.orderId,
      await issuedAt(tx, { lotId: lot.id, itemId: item.id, quantity }),
      `Taking back ${quantity} of ${lot.name}`,
    );
    // save
    await tx.stockMovement.create({
      data: {
        ...(key && { id: key }),
        lotId: lot.id,
        itemId: item.id,
        kind: 'return',
        quantity,
        at: context.now(),
        byId: personId,
      },
    });
    return lot.id;
  });
}

/** When what would come back was issued. */
async function issuedAt(
  tx: Tx,
  { lotId, itemId, quantity }: { lotId: string; itemId: string; quantity: string },
): Promise<Date[]> {
  const movements = await tx.stockMovement.findMany({
    where: { lotId, itemId, kind: { in: ['issue', 'return'] } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { quantity: true, at: true, lot: { select: { id: true } } },
  });
  let open = new Prisma.Decimal(quantity);
  return leftOfIssues(movements).flatMap(({ movement, left }) => {
    if (left.isZero() || open.lessThanOrEqualTo(0)) return [];
    open = open.minus(left);
    return [movement.at];
  });
}
