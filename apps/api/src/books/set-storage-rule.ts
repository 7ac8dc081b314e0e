import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenQuantity } from '../given.ts';

export interface SetStorageRuleInput {
  freeDays: number;
  /** Price of a day, before tax; null: nothing is charged. */
  dayPrice: string | null;
}

const MOST_FREE = 3660;

/** Sets what a day of storage costs once an aircraft is ready, from now on; what was charged stays. Off until it is set. */
export async function setStorageRule(
  context: Context,
  input: SetStorageRuleInput,
): Promise<string> {
  const { personId } = await allow(context, 'manager');
  const { freeDays } = input;
  if (!Number.isInteger(freeDays) || freeDays < 0 || freeDays > MOST_FREE)
    throw new Refused(
      'BAD_INPUT',
      `freeDays is ${freeDays}: needed are 0 to ${MOST_FREE} whole days.`,
      'freeDays',
    );
  const dayPrice =
    input.dayPrice === null
      ? null
      : givenQuantity(input.dayPrice, 'dayPrice', { most: 1_000_000, decimals: 4 });
  return context.write(async (tx) => {
    const { id: shopId } = await tx.shop.findFirstOrThrow({ select: { id: true } });
    await tx.storageRule.create({
      data: { shopId, freeDays, dayPrice, at: context.now(), byId: personId },
      select: { id: true },
    });
    return shopId;
  });
}
