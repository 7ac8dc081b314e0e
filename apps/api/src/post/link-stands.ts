import { createHash } from 'node:crypto';
import type { Tx } from '@fairlead/database';
import type { MailAtHand } from './mail-at-hand.ts';

/**
 * Why the link in a mail would open nothing, in a sentence; null where it opens, or there is none. An invitation lies where
 * the shop does not see it: it opens for seven days, and a mail is given up after five.
 */
export async function linkStands(
  tx: Tx,
  { link }: Pick<MailAtHand, 'link'>,
  secret: string,
  now: Date,
): Promise<string | null> {
  if (link !== 'owner') return null;
  const secretHash = new Uint8Array(createHash('sha256').update(secret).digest());
  const made = await tx.ownerLink.findFirst({
    where: { secretHash },
    select: { expiresAt: true, revokedAt: true },
  });
  if (!made)
    return 'Not sent: the link in it was made with another key of the shop and would open nothing. Send it anew.';
  if (made.revokedAt) return 'Not sent: the link in it was taken back. Send it anew.';
  return made.expiresAt <= now
    ? 'Not sent: the link in it has run out meanwhile. Send it anew.'
    : null;
}
