import type { Tx } from '@fairlead/database';
import { mailFacts, mailState } from '../states.ts';

/** The demo's people are invented, and so are their addresses: no mail of its story ever goes to anybody. */
export async function keepMails(tx: Tx): Promise<void> {
  const mails = await tx.mail.findMany({
    orderBy: { queuedAt: 'asc' },
    select: { id: true, queuedAt: true, ...mailFacts },
  });
  for (const mail of mails.filter((each) => mailState(each) === 'waits'))
    await tx.mailEvent.create({
      data: { mailId: mail.id, seq: mail.events.length + 1, kind: 'kept', at: mail.queuedAt },
      select: { id: true },
    });
}
