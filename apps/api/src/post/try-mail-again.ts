import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { appendMailEvent } from './mail-events.ts';
import { mailForChange } from './mail-for-change.ts';
import { askToSend } from './queue-mail.ts';

/** Has a mail tried at once: one that failed or was kept, or one that waits for its next try. It then has its five days again. */
export async function tryMailAgain(
  context: Context,
  { mailId }: { mailId: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const now = context.now();
  return context.write(async (tx) => {
    const { toAddress, state } = await mailForChange(tx, mailId);
    if (state === 'sent' || state === 'put_away')
      throw new Refused(
        'AGAINST_RULE',
        state === 'sent'
          ? `The mail to ${toAddress} was sent: it does not go twice. Send what it is about anew.`
          : `The mail to ${toAddress} was put away. Send what it is about anew.`,
        'mailId',
      );
    await appendMailEvent(tx, mailId, { kind: 'asked_again', at: now, byId: personId });
    await askToSend(tx, mailId, now);
    return mailId;
  });
}
