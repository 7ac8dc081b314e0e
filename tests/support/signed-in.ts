import { createHash, createHmac, randomBytes } from 'node:crypto';
import type { TestApi } from './api.ts';

export interface TestAccount {
  shopId: string;
  personId: string;
  email: string;
}

/** What stands where a password's digest would: of the right form, and no password opens it. */
const NO_PASSWORD = `${'0'.repeat(32)}:${'0'.repeat(128)}`;

/**
 * Makes a person's account and a session of it, and answers the cookie that their browser would hold.
 *
 * Signing in itself, which takes a tenth of a second of computing for each password by design, is tried in
 * apps/api/tests/sign-in.test.ts; tests/api/people/signed-in.test.ts holds that this leaves behind what that does.
 */
export async function signedIn(api: TestApi, account: TestAccount): Promise<string> {
  const token = randomBytes(24).toString('base64url');
  await api.identity.query(
    `with made as (
       insert into identity.account (name, email, email_verified) values ($1, $1, true) returning id
     ), known as (
       insert into identity.credential (account_id, provider_id, provider_account_id, password)
       select id, 'credential', id::text, $4 from made
     ), joined as (
       insert into identity.membership (account_id, shop_id, person_id) select id, $2, $3 from made
     )
     insert into identity.session (account_id, token, expires_at, ip_address, user_agent)
     select id, $5, now() + interval '14 days', '', 'node' from made`,
    [
      ...[account.email, account.shopId, account.personId, NO_PASSWORD],
      createHash('sha256').update(token).digest('hex'),
    ],
  );
  const signature = createHmac('sha256', api.secret).update(token).digest('base64');
  return `fairlead.session_token=${encodeURIComponent(`${token}.${signature}`)}`;
}
