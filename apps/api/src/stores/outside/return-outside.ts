import { allow, type Context } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { givenText } from '../../given.ts';
import { shopToday } from '../../today.ts';
import { expectedAs } from './expect-back.ts';
import { returnedOf } from './outside-facts.ts';
import { outsideForChange } from './outside-for-change.ts';

export interface ReturnOutsideInput {
  jobId: string;
  /** Number of the release tag; empty where its photo or PDF was kept before. */
  tag: string | null;
  /** Whoever takes it back knows that it has no tag, and says why. */
  withoutTag: boolean;
  reason: string | null;
}

/**
 * Keeps that something came back from another shop with its release tag. Without a tag only for a reason, under the name of
 * whoever gives it: whether the part may be fitted stays the signer's decision.
 */
export async function returnOutside(context: Context, input: ReturnOutsideInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const tag = givenText(input.tag, 'tag', { most: 60 });
  const given = givenText(input.reason, 'reason', { most: 500 });
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    const job = await outsideForChange(tx, input.jobId);
    // decide
    if (returnedOf(job)) return job.id;
    const traced = tag !== '' || job.documents.length > 0;
    if (!traced && !input.withoutTag)
      throw new Refused(
        'AGAINST_RULE',
        `${job.name} came back without a release tag: neither its number nor its photo is kept. Keep one of them, or give your reason for taking it back all the same; it is kept under your name.`,
        'tag',
      );
    if (!traced && given.length < 3)
      throw new Refused(
        'BAD_INPUT',
        `The reason for taking ${job.name} back without a tag has ${given.length} characters: needed are at least 3; it is kept under your name.`,
        'reason',
      );
    // save
    const now = context.now();
    await tx.outsideEvent.create({
      data: {
        ...{ jobId: job.id, kind: 'returned', tag, reason: traced ? '' : given },
        ...{ at: now, byId: personId },
      },
      select: { id: true },
    });
    // The last word on what the item waits for: it is here today.
    await tx.expectation.create({
      data: {
        ...{ itemId: job.itemId, what: expectedAs(job), expectedOn: today, saidBy: 'it came back' },
        ...{ notedAt: now, notedById: personId },
      },
      select: { id: true },
    });
    return job.id;
  });
}
