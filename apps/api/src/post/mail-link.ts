import { createHash } from 'node:crypto';
import type { MailLink } from '@fairlead/database';
import type { SigningKey } from '@fairlead/proof';

/** Stands in a mail's text where its link goes: U+FFFC, which nothing else of a text may hold. */
export const LINK_MARK = '\uFFFC';

/**
 * The secret of the link in a mail: 256 bits that follow from the mail's id and the shop's key, whose signatures are the same
 * each time (RFC 8032). So the text can be shown again, while the database holds the secret's hash and nothing more.
 */
export const mailSecret = (key: SigningKey, mailId: string): string =>
  createHash('sha256')
    .update(key.sign(`link of mail ${mailId}`))
    .digest('base64url');

const paths: Record<MailLink, string> = { owner: '/owner/', invitation: '/invited#' };

/** The text as it goes out. */
export const textWith = (
  { text, link }: { text: string; link: MailLink | null },
  { webOrigin, secret }: { webOrigin: string; secret: string },
): string => (link ? text.replaceAll(LINK_MARK, `${webOrigin}${paths[link]}${secret}`) : text);

const shown: Record<MailLink, string> = {
  owner: '(here stands the private link, which is kept nowhere)',
  invitation: '(here stands the link of the invitation, which is kept nowhere)',
};

/** The text without what whoever has it could do. */
export const textWithout = ({ text, link }: { text: string; link: MailLink | null }): string =>
  link ? text.replaceAll(LINK_MARK, shown[link]) : text;
