import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenKey, givenQuantity, sayDay } from '../given.ts';
import { shopToday } from '../today.ts';
import { itemOfOpenOrder, lotForChange, movedBefore } from './lot-for-change.ts';

export interface MovePartInput {
  lotId: string;
  itemId: string;
  quantity: string;
  /** Made by the page; it becomes the movement's key, so that what is sent twice moves once. */
  clientEventId: string | null;
}

/** Takes parts out of a lot for an item. Never more than is there, and nothing past its shelf life. */
export async function issuePart(context: Context, input: MovePartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    const lot = await lotForChange(tx, input.lotId);
    const before = await movedBefore(tx, key, { ...input, kind: 'issue' });
    if (before) return before;
    const item = await itemOfOpenOrder(tx, input.itemId);
    // decide
    if (lot.shelfLifeUntil && lot.shelfLifeUntil < today)
      throw new Refused(
        'AGAINST_RULE',
        `${lot.name} was good until ${sayDay(lot.shelfLifeUntil)}, and today is ${sayDay(today)}: take a lot that is within its shelf life.`,
        'lotId',
      );
    if (lot.onHand.lessThan(quantity))
      throw new Refused(
        'AGAINST_RULE',
        `${quantity} of ${lot.name} cannot be issued: the lot holds ${lot.onHand.toFixed()} (${lot.part.unit}).`,
        'quantity',
      );
    // save
    await tx.stockMovement.create({
      data: {
        ...(key && { id: key }),
        lotId: lot.id,
        itemId: item.id,
        kind: 'issue',
        quantity: `-${quantity}`,
        at: context.now(),
        byId: personId,
      },
    });
    return lot.id;
  });
}
