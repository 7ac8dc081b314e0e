import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenKey, givenQuantity, givenText } from '../given.ts';
import { lotForChange, movedBefore } from './lot-for-change.ts';

export interface ScrapPartInput {
  lotId: string;
  quantity: string;
  reason: string;
  clientEventId: string | null;
}

/** Throws away what lies in a lot, with the reason. Never more than is there. */
export async function scrapPart(context: Context, input: ScrapPartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  const reason = givenText(input.reason, 'reason', { least: 3, most: 300 });
  return context.write(async (tx) => {
    // load
    const lot = await lotForChange(tx, input.lotId);
    const before = await movedBefore(tx, key, { lotId: lot.id, itemId: null, kind: 'scrap' });
    if (before) return before;
    // decide
    if (lot.onHand.lessThan(quantity))
      throw new Refused(
        'AGAINST_RULE',
        `${quantity} of ${lot.name} cannot be scrapped: the lot holds ${lot.onHand.toFixed()} (${lot.part.unit}).`,
        'quantity',
      );
    // save
    await tx.stockMovement.create({
      data: {
        ...(key && { id: key }),
        lotId: lot.id,
        kind: 'scrap',
        quantity: `-${quantity}`,
        reason,
        at: context.now(),
        byId: personId,
      },
    });
    return lot.id;
  });
}
