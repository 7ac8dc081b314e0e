import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenKey, givenQuantity, givenText } from '../given.ts';
import { lotForChange, movedBefore } from './lot-for-change.ts';

export interface CountLotInput {
  lotId: string;
  /** How many are there. */
  counted: string;
  /** How many the counter was told should be there. */
  expected: string;
  reason: string | null;
  clientEventId: string | null;
}

const amount = { most: 100_000, decimals: 3, zero: true };

/**
 * Counts what lies in a lot: a movement by the difference, which may be 0, so that a count that found all in order is
 * known too. Whoever counted names what should have been there: what moved meanwhile would hide in the difference.
 */
export async function countLot(context: Context, input: CountLotInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const counted = givenQuantity(input.counted, 'counted', amount);
  const expected = givenQuantity(input.expected, 'expected', amount);
  const reason = givenText(input.reason, 'reason', { most: 300 });
  return context.write(async (tx) => {
    // load
    const lot = await lotForChange(tx, input.lotId);
    const before = await movedBefore(tx, key, { lotId: lot.id, itemId: null, kind: 'count' });
    if (before) return before;
    // decide
    if (!lot.onHand.equals(expected))
      throw new Refused(
        'CONFLICT',
        `${lot.name} was counted against ${expected} (${lot.part.unit}), and holds ${lot.onHand.toFixed()} by now, because something moved meanwhile: count it again.`,
        'expected',
      );
    const difference = lot.onHand.minus(counted).negated();
    if (!difference.isZero() && reason.length < 3)
      throw new Refused(
        'BAD_INPUT',
        `${counted} were counted of ${lot.name} where ${expected} should be: needed is a reason of at least 3 characters.`,
        'reason',
      );
    // save
    await tx.stockMovement.create({
      data: {
        ...(key && { id: key }),
        lotId: lot.id,
        kind: 'count',
        quantity: difference.toFixed(),
        counted,
        reason,
        at: context.now(),
        byId: personId,
      },
    });
    return lot.id;
  });
}
