import type { MailEventKind, Tx } from '@fairlead/database';
import { holdFor } from '../hold.ts';

/** Holds a mail to the end of the transaction, so that its events come one after the other. */
export const holdMail = (tx: Tx, mailId: string) => holdFor(tx, 'mail', mailId);

export interface NewMailEvent {
  kind: MailEventKind;
  at: Date;
  words?: string;
  byId?: string | null;
  nextAt?: Date | null;
}

/** Appends what happened to a mail. The mail has to be held. */
export async function appendMailEvent(
  tx: Tx,
  mailId: string,
  { kind, at, words = '', byId = null, nextAt = null }: NewMailEvent,
): Promise<void> {
  const last = await tx.mailEvent.findFirst({
    where: { mailId },
    orderBy: { seq: 'desc' },
    select: { seq: true },
  });
  await tx.mailEvent.create({
    data: { mailId, seq: (last?.seq ?? 0) + 1, kind, at, words, byId, nextAt },
    select: { id: true },
  });
}
