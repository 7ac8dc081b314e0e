import { allow, type Context } from '../context.ts';
import { shopKey } from '../shop-key.ts';
import { type OwnersAnswer, takeDecision } from './take-decision.ts';

/** Records the owner's answer as the desk heard it. Their yes opens the work, in the same transaction. */
export async function recordDecision(context: Context, input: OwnersAnswer): Promise<string> {
  const { personId, shopId } = await allow(context, 'front_desk', 'manager');
  const key = await shopKey(context.uploadsDir, shopId);
  return context.write((tx) =>
    takeDecision(tx, input, { now: context.now(), recordedById: personId, key }),
  );
}
