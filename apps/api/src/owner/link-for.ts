import type { Tx } from '@fairlead/database';
import { hashOf } from './secret.ts';

const DAY_MS = 86_400_000;

/** Keeps a private link whose secret somebody else made: a mail that carries it. It opens for so many days. */
export async function linkFor(
  tx: Tx,
  link: {
    orderId: string | null;
    quoteId: string;
    contactId: string;
    secret: string;
    days: number;
    now: Date;
  },
): Promise<Date> {
  const { orderId, quoteId, contactId, secret, days, now } = link;
  const expiresAt = new Date(now.getTime() + days * DAY_MS);
  await tx.ownerLink.create({
    data: {
      // A quote that is on an order is reached through it, with all that belongs to it.
      ...(orderId ? { orderId } : { quoteId }),
      contactId,
      secretHash: hashOf(secret),
      createdAt: now,
      expiresAt,
    },
    select: { id: true },
  });
  return expiresAt;
}
