import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { appendMailEvent } from './mail-events.ts';
import { mailForChange } from './mail-for-change.ts';

/** Puts a mail away that is not to go any more. One that is being handed over at this moment may still go. */
export async function putMailAway(
  context: Context,
  { mailId, why }: { mailId: string; why: string | null },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const words = givenText(why, 'why', { most: 200 });
  const now = context.now();
  return context.write(async (tx) => {
    const { toAddress, state } = await mailForChange(tx, mailId);
    if (state === 'put_away') return mailId;
    if (state === 'sent')
      throw new Refused(
        'AGAINST_RULE',
        `The mail to ${toAddress} was sent: it cannot be put away any more.`,
        'mailId',
      );
    await appendMailEvent(tx, mailId, { kind: 'put_away', at: now, byId: personId, words });
    return mailId;
  });
}
