import { createHash } from 'node:crypto';
import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenMailAddress } from '../mail-address.ts';
import { newId } from '../new-id.ts';
import { shopKey } from '../shop-key.ts';
import { mailForChange } from './mail-for-change.ts';
import { LINK_MARK, mailSecret } from './mail-link.ts';
import { LINK, queueMail } from './queue-mail.ts';

const hashOf = (secret: string) => new Uint8Array(createHash('sha256').update(secret).digest());

/**
 * Sends the same words once more, as a mail of its own, to an address that may be another: the one before was wrong, or the mail
 * was lost. Its papers are drawn anew. A private link in it is a new one, that reaches the same and opens as long as the first.
 */
export async function sendMailAnew(
  context: Context,
  { mailId, to }: { mailId: string; to: string },
): Promise<string> {
  const { personId, shopId } = await allow(context, 'front_desk', 'manager');
  const address = givenMailAddress(to, 'to');
  if (address === null)
    throw new Refused('BAD_INPUT', 'to is empty: needed is one e-mail address.', 'to');
  const key = await shopKey(context.uploadsDir, shopId);
  const now = context.now();
  return context.write(async (tx) => {
    // load
    const { state } = await mailForChange(tx, mailId);
    const mail = await tx.mail.findUniqueOrThrow({
      where: { id: mailId },
      include: { papers: { orderBy: { position: 'asc' } } },
    });
    // decide
    if (state === 'waits')
      throw new Refused(
        'CONFLICT',
        `The mail to ${mail.toAddress} still waits to go: put it away first.`,
        'mailId',
      );
    if (mail.link === 'invitation')
      throw new Refused(
        'AGAINST_RULE',
        'An invitation is not sent twice: the manager makes a new one, which ends the first.',
        'mailId',
      );
    // save
    const id = newId();
    if (mail.link === 'owner')
      await sameLink(tx, mailSecret(key, mailId), mailSecret(key, id), now);
    const { quoteId, orderId, invoiceId } = mail;
    return queueMail(tx, {
      id,
      to: { address, name: mail.toName },
      subject: mail.subject,
      paragraphs: mail.text.split('\n\n').map((each) => (each === LINK_MARK ? LINK : each)),
      ...(mail.link && { link: mail.link }),
      papers: mail.papers.map(({ paper, subject }) => ({ paper, subject })),
      about: {
        words: mail.about,
        ...(quoteId && { quoteId }),
        ...(orderId && { orderId }),
        ...(invoiceId && { invoiceId }),
      },
      queuedById: personId,
      now,
    });
  });
}

/** A second key to what the first opens, for as long. */
async function sameLink(tx: Tx, before: string, secret: string, now: Date): Promise<void> {
  const link = await tx.ownerLink.findFirst({ where: { secretHash: hashOf(before) } });
  if (!link || link.revokedAt || link.expiresAt <= now)
    throw new Refused(
      'AGAINST_RULE',
      'The private link in this mail was taken back or has run out: make a new one on the sheet of the quote or the order.',
      'mailId',
    );
  const { orderId, quoteId, contactId, expiresAt } = link;
  await tx.ownerLink.create({
    data: { orderId, quoteId, contactId, expiresAt, createdAt: now, secretHash: hashOf(secret) },
    select: { id: true },
  });
}
