import { allow, type Context } from '../../context.ts';
import { givenText } from '../../given.ts';
import { shopToday } from '../../today.ts';
import { expectBack, refusePromisedOn } from './expect-back.ts';
import { outsideForChange, refuseReturned } from './outside-for-change.ts';

/** Keeps another word on when something comes back from another shop; without a day, that nobody can say. */
export async function promiseBack(
  context: Context,
  input: { jobId: string; promisedOn: Date | null; saidBy: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const today = await shopToday(context);
  const saidBy = givenText(input.saidBy, 'saidBy', { least: 1, most: 120 });
  refusePromisedOn(input.promisedOn, today);
  return context.write(async (tx) => {
    const job = await outsideForChange(tx, input.jobId);
    refuseReturned(job);
    await expectBack(tx, job, {
      ...{ promisedOn: input.promisedOn, saidBy, now: context.now(), personId },
    });
    return job.id;
  });
}
