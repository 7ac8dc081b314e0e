import { createHash } from 'node:crypto';
import { hashPassword } from 'better-auth/crypto';
import type pg from 'pg';
import { AccountRefused } from './create-account.ts';
import { passwordLack } from './password.ts';

/** Whom an invitation is for. */
export interface Invitation {
  name: string;
  shop: string;
  email: string;
}

/** SHA-256 of an invitation's secret: what the table keeps. */
export const secretHash = (secret: string): Buffer => createHash('sha256').update(secret).digest();

/**
 * Whom an invitation is for; null where the secret opens none, or no longer.
 *
 * @param pool connections in the role fairlead_identity
 */
export async function readInvitation(pool: pg.Pool, secret: string): Promise<Invitation | null> {
  const { rows } = await pool.query<Invitation>(
    `select name, shop_name as shop, email from identity.invitation
      where secret_hash = $1 and expires_at > now()`,
    [secretHash(secret)],
  );
  return rows[0] ?? null;
}

/**
 * Makes the account of somebody who was invited, with the password that they chose. Works once: the invitation goes in
 * the same statement, so that of two who use it at once one gets the account.
 *
 * @throws AccountRefused for a password of the wrong length, and where the address has got an account meanwhile
 */
export async function acceptInvitation(
  pool: pg.Pool,
  secret: string,
  password: string,
): Promise<Invitation | null> {
  // Before the costly digest, so that nobody without a secret makes the server work.
  if (!(await readInvitation(pool, secret))) return null;
  const lack = passwordLack(password);
  if (lack !== null) throw new AccountRefused('password_length', lack);
  const digest = await hashPassword(password);
  try {
    const { rows } = await pool.query<Invitation>(
      `with used as (
         delete from identity.invitation where secret_hash = $1 and expires_at > now()
         returning shop_id, person_id, name, shop_name, email
       ), made as (
         insert into identity.account (name, email, email_verified) select name, email, true from used returning id
       ), known as (
         insert into identity.credential (account_id, provider_id, provider_account_id, password)
         select id, 'credential', id::text, $2 from made
       ), member as (
         insert into identity.membership (account_id, shop_id, person_id)
         select made.id, used.shop_id, used.person_id from made, used
       )
       select name, shop_name as shop, email from used`,
      [secretHash(secret), digest],
    );
    return rows[0] ?? null;
  } catch (error) {
    const constraint =
      typeof error === 'object' && error !== null && 'constraint' in error
        ? error.constraint
        : null;
    if (constraint === 'account_email_key')
      throw new AccountRefused(
        'email_taken',
        'There is an account for this address by now. Ask the manager for an invitation to another address.',
      );
    if (constraint === 'membership_person_key')
      throw new AccountRefused('person_has_account', 'You have an account here already: sign in.');
    throw error;
  }
}
