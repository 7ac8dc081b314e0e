import type { Tx } from '@fairlead/database';
import { notFound } from '../errors.ts';
import { mailFacts, mailState } from '../states.ts';
import { holdMail } from './mail-events.ts';

/** A mail that the desk does something about, held, with the state that it is in. */
export async function mailForChange(tx: Tx, mailId: string) {
  await holdMail(tx, mailId);
  const mail = await tx.mail.findUnique({
    where: { id: mailId },
    select: { toAddress: true, ...mailFacts },
  });
  if (!mail) throw notFound('mail');
  return { toAddress: mail.toAddress, state: mailState(mail) };
}
