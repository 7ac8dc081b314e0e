import { randomBytes } from 'node:crypto';
import type { Tx } from '@fairlead/database';
import type { SigningKey } from '@fairlead/proof';
import { Refused } from '../errors.ts';
import { sayMinute } from '../given.ts';
import { newId } from '../new-id.ts';
import { LINK, mailSecret, queueMail } from '../post/index.ts';
import { secretHash } from './accept-invitation.ts';
import { emailAddress } from './password.ts';

const DAYS = 7;

/** An invitation as it is shown, once: the database keeps only the digest of its secret. */
export interface MadeInvitation {
  email: string;
  path: string;
  expiresAt: Date;
}

export interface MailedBy {
  personId: string;
  key: SigningKey;
}

export function givenEmail(given: string): string {
  const email = emailAddress(given);
  if (email === null)
    throw new Refused(
      'BAD_INPUT',
      `email is "${given.slice(0, 80)}": needed is an e-mail address, with which they sign in.`,
      'email',
    );
  return email;
}

/** Makes the link with which somebody chooses a password and so gets an account. One made before opens nothing any more. */
export async function makeInvitation(
  tx: Tx,
  person: { id: string; name: string },
  email: string,
  now: Date,
  /** Given where the invitation is mailed too. */
  mailed: MailedBy | null = null,
): Promise<MadeInvitation> {
  const mailId = newId();
  const secret = mailed ? mailSecret(mailed.key, mailId) : randomBytes(24).toString('base64url');
  const hash = Uint8Array.from(secretHash(secret));
  const expiresAt = new Date(now.getTime() + DAYS * 86_400_000);
  const [answer] = await tx.$queryRaw<
    { said: string }[]
  >`SELECT invite_person(${person.id}::uuid, ${email}, ${hash}, ${expiresAt}) AS said`;
  const refusals: Record<string, Refused> = {
    has_sign_in: new Refused('CONFLICT', `${person.name} has a sign-in already.`, 'personId'),
    person_left: new Refused(
      'AGAINST_RULE',
      `${person.name} no longer works here: take them back first.`,
      'personId',
    ),
    email_taken: new Refused(
      'CONFLICT',
      `Somebody signs in with ${email} already: needed is an address of ${person.name}'s own.`,
      'email',
    ),
  };
  if (answer?.said !== 'made')
    throw (
      refusals[answer?.said ?? ''] ??
      new Refused('NOT_FOUND', 'There is no such person in this shop.')
    );
  if (mailed)
    await mailInvitation(tx, {
      id: mailId,
      person,
      email,
      now,
      expiresAt,
      personId: mailed.personId,
    });
  return { email, path: `/invited#${secret}`, expiresAt };
}

async function mailInvitation(
  tx: Tx,
  mail: {
    id: string;
    person: { name: string };
    email: string;
    now: Date;
    expiresAt: Date;
    personId: string;
  },
): Promise<void> {
  const { id, person, email, now, expiresAt, personId } = mail;
  const shop = await tx.shop.findFirstOrThrow({ select: { name: true, place: true } });
  await queueMail(tx, {
    id,
    to: { address: email, name: person.name },
    subject: `${shop.name}: your sign-in`,
    paragraphs: [
      `${person.name}, ${shop.name} invites you. Choose a password of your own here; you will sign in as ${email}:`,
      LINK,
      `The address works once, and opens until ${sayMinute(expiresAt)}.`,
      `${shop.name}\n${shop.place}`,
    ],
    link: 'invitation',
    about: { words: `Invitation of ${person.name}` },
    queuedById: personId,
    now,
  });
}
