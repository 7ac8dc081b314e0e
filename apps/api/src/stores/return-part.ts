import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenKey, givenQuantity } from '../given.ts';
import type { MovePartInput } from './issue-part.ts';
import { itemOfOpenOrder, lotForChange, movedBefore, onItem } from './lot-for-change.ts';

/** Puts back into its lot what an item did not need. Never more than that item had from it. */
export async function returnPart(context: Context, input: MovePartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  return context.write(async (tx) => {
    // load
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
