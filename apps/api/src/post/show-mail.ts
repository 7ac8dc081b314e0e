import type { MailEventKind, MailLink } from '@fairlead/database';
import type { Context } from '../context.ts';
import { allow } from '../context.ts';
import { shopKey } from '../shop-key.ts';
import { mailState } from '../states.ts';
import { mailSecret, textWith, textWithout } from './mail-link.ts';

interface MailWithText {
  id: string;
  shopId: string;
  text: string;
  link: MailLink | null;
  events: readonly { kind: MailEventKind }[];
}

/**
 * The words of a mail, for whoever may read it. Whoever has a private link answers for its owner: it is shown only where the
 * mail is kept instead of sent, since it is the only way then; an invitation makes an account, so it is the manager's.
 */
export async function mailTextShown(context: Context, mail: MailWithText): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const roles = await context.roles();
  const reads = mailState(mail) === 'kept' && (mail.link === 'owner' || roles.includes('manager'));
  if (!mail.link || !reads) return textWithout(mail);
  const key = await shopKey(context.uploadsDir, mail.shopId);
  return textWith(mail, { webOrigin: context.webOrigin, secret: mailSecret(key, mail.id) });
}
