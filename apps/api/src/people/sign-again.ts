import { randomBytes } from 'node:crypto';
import { verifyPassword } from 'better-auth/crypto';
import type pg from 'pg';
import { Refused } from '../errors.ts';
import { digestOfSigned, type WhatIsSigned } from '../what-is-signed.ts';
import { digestOf } from './identity-adapter.ts';
import { createThrottle } from './throttle.ts';

const MINUTES = 5;
const TRIES = 5;

/** Saying again who one is, before a signature; over connections in the role fairlead_identity. */
export function signAgain(pool: pg.Pool) {
  const attempts = createThrottle(TRIES, 10 * 60_000);
  /**
   * @returns a token that counts once, for signing just this, for five minutes
   * @throws Refused for a wrong password, and for too many tries
   */
  return async (accountId: string, password: string, what: WhatIsSigned): Promise<string> => {
    const wait = attempts.attempt(accountId);
    if (wait > 0)
      throw new Refused(
        'FORBIDDEN',
        `Nothing was signed: too many wrong passwords. Try again in ${Math.ceil(wait / 60)} min.`,
      );
    const { rows } = await pool.query<{ password: string | null }>(
      "select password from identity.credential where account_id = $1 and provider_id = 'credential'",
      [accountId],
    );
    const hash = rows[0]?.password;
    if (!hash || !(await verifyPassword({ hash, password })))
      throw new Refused(
        'SIGN_IN_NEEDED',
        'Nothing was signed: this is not your password. An entry is signed after signing in again, by the person themselves.',
      );
    attempts.forgive(accountId);
    const token = randomBytes(32).toString('base64url');
    await pool.query(
      `with over as (delete from identity.sign_again where account_id = $1)
       insert into identity.sign_again (account_id, token, what, expires_at)
       values ($1, $2, $3, now() + make_interval(mins => $4))`,
      [accountId, digestOf(token), digestOfSigned(what), MINUTES],
    );
    return token;
  };
}
