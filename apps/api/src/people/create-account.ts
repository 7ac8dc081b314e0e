import { hashPassword } from 'better-auth/crypto';
import type pg from 'pg';
import { emailAddress, passwordLack } from './password.ts';

/** An invited person's account. Shop and person exist already. */
export type AccountRequest = {
  email: string;
  password: string;
  name: string;
  shopId: string;
  personId: string;
};

/** Why an account was not made. */
export type AccountRefusal =
  | 'email_invalid'
  | 'email_taken'
  | 'password_length'
  | 'person_unknown'
  | 'person_has_account';

/** Thrown when an account cannot be made; nothing of it stays. */
export class AccountRefused extends Error {
  override readonly name = 'AccountRefused';
  readonly reason: AccountRefusal;

  constructor(reason: AccountRefusal, message: string) {
    super(message);
    this.reason = reason;
  }
}

/**
 * Makes an account with its password and its membership, all three or none.
 *
 * @param pool connections in the role fairlead_identity
 * @returns the account's id
 * @throws AccountRefused
 */
export async function createAccount(pool: pg.Pool, request: AccountRequest): Promise<string> {
  const email = emailAddress(request.email);
  if (email === null) {
    throw new AccountRefused('email_invalid', `"${request.email}" is not an e-mail address.`);
  }
  const lack = passwordLack(request.password);
  if (lack !== null) throw new AccountRefused('password_length', lack);
  const digest = await hashPassword(request.password);
  try {
    const { rows } = await pool.query<{ id: string }>(
      `with made as (
         insert into identity.account (name, email, email_verified) values ($1, $2, true) returning id
       ), known as (
         insert into identity.credential (account_id, provider_id, provider_account_id, password)
         select id, 'credential', id::text, $3 from made
       )
       insert into identity.membership (account_id, shop_id, person_id)
       select id, $4, $5 from made returning account_id as id`,
      [request.name, email, digest, request.shopId, request.personId],
    );
    const id = rows[0]?.id;
    if (!id) throw new Error('The database made an account without telling its id');
    return id;
  } catch (error) {
    throw refusalOf(error, request) ?? error;
  }
}

function refusalOf(error: unknown, request: AccountRequest): AccountRefused | null {
  const constraint =
    typeof error === 'object' && error !== null && 'constraint' in error ? error.constraint : null;
  if (constraint === 'account_email_key') {
    return new AccountRefused('email_taken', `There is an account for ${request.email} already.`);
  }
  if (constraint === 'membership_person_key') {
    return new AccountRefused(
      'person_has_account',
      `Person ${request.personId} has an account already.`,
    );
  }
  if (constraint === 'membership_person_fkey') {
    return new AccountRefused(
      'person_unknown',
      `Shop ${request.shopId} has no person ${request.personId}.`,
    );
  }
  return null;
}
