import type { Prisma, Tx } from '@fairlead/database';
import { mailFacts, mailState } from '../states.ts';

const facts = {
  id: true,
  shopId: true,
  toAddress: true,
  toName: true,
  replyTo: true,
  subject: true,
  text: true,
  link: true,
  queuedAt: true,
  queuedById: true,
  shop: { select: { name: true } },
  papers: {
    orderBy: { position: 'asc' },
    select: { id: true, paper: true, subject: true, files: true },
  },
  events: mailFacts.events,
} satisfies Prisma.MailSelect;

export type MailAtHand = Prisma.MailGetPayload<{ select: typeof facts }>;

/** A mail with all that sending it needs; null where it has gone, failed or was put away. */
export async function mailAtHand(tx: Tx, mailId: string): Promise<MailAtHand | null> {
  const mail = await tx.mail.findUnique({ where: { id: mailId }, select: facts });
  return mail && ['waits', 'kept'].includes(mailState(mail)) ? mail : null;
}

/** Since when it is tried, and how many tries failed since: asked for again, it begins anew. */
export function triesOf({ queuedAt, events }: Pick<MailAtHand, 'queuedAt' | 'events'>) {
  const again = events.findLastIndex(({ kind }) => kind === 'asked_again');
  return {
    since: events[again]?.at ?? queuedAt,
    tries: events.slice(again + 1).filter(({ kind }) => kind === 'tried').length,
  };
}
