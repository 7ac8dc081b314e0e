import { randomBytes } from 'node:crypto';
import type { Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { secretHash } from './accept-invitation.ts';
import { emailAddress } from './password.ts';

const DAYS = 7;

/** An invitation as it is shown, once: the database keeps only the digest of its secret. */
export interface MadeInvitation {
  email: string;
  path: string;
  expiresAt: Date;
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
): Promise<MadeInvitation> {
  const secret = randomBytes(24).toString('base64url');
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
  return { email, path: `/invited#${secret}`, expiresAt };
}
