import { createHmac, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { betterAuth } from 'better-auth';
import { APIError, createAuthMiddleware } from 'better-auth/api';
import type { RequestHandler } from 'express';
import { acceptInvitation, type Invitation, readInvitation } from './accept-invitation.ts';
import { type AccountRequest, createAccount } from './create-account.ts';
import { digestOf, identityAdapter } from './identity-adapter.ts';
import { type SharedDevices, sharedDevices } from './shared-device.ts';
import { signAgain } from './sign-again.ts';
import { signInRoute } from './sign-in-route.ts';
import { sweepSignIn } from './sweep-sign-in.ts';
import { createThrottle } from './throttle.ts';

const SESSION_SECONDS = 14 * 24 * 3600;
const ATTEMPTS_PER_ADDRESS = 10;
const ATTEMPTS_WINDOW_MS = 10 * 60_000;

/** What sign-in needs to know; nothing is read from the environment. */
export type SignInOptions = {
  /** The database, as the application's account. */
  appUrl: string;
  /** The web origins from which people sign in; the first is the main one. */
  origins: readonly [string, ...string[]];
  /** At least 32 characters; it signs the cookies. */
  secret: string;
  /** True where the origin is https. */
  secureCookies: boolean;
  /** For tests: the number of connections, and a look at each statement. */
  onQuery?: (sql: string) => void;
};

/** Who is asking. */
export type Identity = {
  accountId: string;
  shopId: string;
  personId: string;
  sessionId: string;
  /** On which shared device; null: signed in with a password. */
  deviceId: string | null;
};

/** Sign-in, running. */
export type SignIn = {
  /** Express handler for everything below /auth; before any body parser. */
  signInHandler: RequestHandler;
  /** Who sent a request with these headers: one SQL statement, none without a cookie of ours. */
  identify(headers: Headers | IncomingHttpHeaders): Promise<Identity | null>;
  /** Makes the account of a person who was invited. */
  createAccount(request: AccountRequest): Promise<string>;
  /** Whom an invitation is for; null where the secret opens none. */
  readInvitation(secret: string): Promise<Invitation | null>;
  /** Turns an invitation into an account, once. Null where the secret opens none. */
  acceptInvitation(secret: string, password: string): Promise<Invitation | null>;
  /** Ends every session of an account at once: on a lost phone, or when somebody leaves. */
  endSessions(accountId: string): Promise<void>;
  /** Says again who somebody is, before they sign. */
  signAgain: ReturnType<typeof signAgain>;
  /** Shared devices, and what opens a session on them. */
  devices: SharedDevices;
  /** The token in a cookie of ours by this name. */
  tokenOf(headers: IncomingHttpHeaders, cookie: 'session_token' | 'device'): string | null;
  /** The Set-Cookie header for a token. */
  cookieOf(cookie: 'session_token' | 'device', token: string, seconds: number): string;
  /** Removes sessions and invitations that are over. Returns how many. The worker does it by itself. */
  sweep(): Promise<number>;
  close(): Promise<void>;
};

/**
 * Sets up sign-in by e-mail address and password. Accounts are made by invitation, never over HTTP. A session lasts
 * fourteen days from signing in.
 *
 * @throws RangeError when the secret is shorter than 32 characters
 */
export function createSignIn(options: SignInOptions): SignIn {
  const { appUrl, origins, secret, secureCookies } = options;
  if (secret.length < 32) {
    throw new RangeError(
      `The sign-in secret has ${secret.length} characters and needs at least 32: whoever guesses it can forge cookies.`,
    );
  }
  const pool = rolePool({ url: appUrl, role: roles.identity, max: 4 });
  if (options.onQuery) watch(pool, options.onQuery);
  const attempts = createThrottle(ATTEMPTS_PER_ADDRESS, ATTEMPTS_WINDOW_MS);

  const auth = betterAuth({
    appName: 'Fairlead',
    baseURL: origins[0],
    basePath: '/auth',
    secret,
    trustedOrigins: [...origins],
    database: identityAdapter(pool),
    emailAndPassword: { enabled: true, disableSignUp: true },
    session: { expiresIn: SESSION_SECONDS, disableSessionRefresh: true },
    advanced: {
      cookiePrefix: 'fairlead',
      useSecureCookies: secureCookies,
      defaultCookieAttributes: { httpOnly: true, sameSite: 'lax', path: '/' },
      // Said out loud: the library's own default switches the check off under test.
      disableOriginCheck: false,
      disableCSRFCheck: false,
      ipAddress: { disableIpTracking: true },
    },
    // Its limit goes by an address that a header can forge; ours goes by the e-mail address, below.
    rateLimit: { enabled: false },
    telemetry: { enabled: false },
    // It would print what people typed wrong; the route reports real faults.
    logger: { disabled: true },
    onAPIError: { throw: true },
    hooks: {
      before: createAuthMiddleware(async (context) => {
        if (context.path !== '/sign-in/email') return;
        const wait = attempts.attempt(addressOf(context.body));
        if (wait > 0) {
          throw new APIError(
            'TOO_MANY_REQUESTS',
            {
              code: 'TOO_MANY_ATTEMPTS',
              message: `Too many attempts to sign in. Try again in ${Math.ceil(wait / 60)} min.`,
            },
            { 'retry-after': String(wait) },
          );
        }
      }),
      after: createAuthMiddleware(async (context) => {
        const answer = context.context.returned;
        if (context.path !== '/sign-in/email' || answer instanceof Error) return;
        attempts.forgive(addressOf(context.body));
        // The library puts the session's token into the answer, where scripts could read it. The cookie is enough.
        return context.json({ ok: true });
      }),
    },
  });

  const nameOf = (cookie: string) => `${secureCookies ? '__Secure-' : ''}fairlead.${cookie}`;
  const cookieName = nameOf('session_token');

  return {
    signInHandler: signInRoute(origins, (request) => auth.handler(request)),

    async identify(headers) {
      const token = tokenIn(
        headers instanceof Headers ? headers.get('cookie') : headers.cookie,
        cookieName,
        secret,
      );
      if (token === null) return null;
      const { rows } = await pool.query<Identity>(
        `select s.id as "sessionId", s.account_id as "accountId", s.device_id as "deviceId", m.shop_id as "shopId", m.person_id as "personId"
           from identity.session s join identity.membership m on m.account_id = s.account_id
          where s.token = $1 and s.expires_at > now()`,
        [digestOf(token)],
      );
      return rows[0] ?? null;
    },

    createAccount: (request) => createAccount(pool, request),
    readInvitation: (secret) => readInvitation(pool, secret),
    acceptInvitation: (secret, password) => acceptInvitation(pool, secret, password),

    async endSessions(accountId) {
      await pool.query('delete from identity.session where account_id = $1', [accountId]);
    },

    signAgain: signAgain(pool),
    devices: sharedDevices(pool),
    tokenOf: (headers, cookie) => tokenIn(headers.cookie, nameOf(cookie), secret),
    cookieOf: (cookie, token, seconds) =>
      `${nameOf(cookie)}=${encodeURIComponent(`${token}.${createHmac('sha256', secret).update(token).digest('base64')}`)}; Path=/; HttpOnly; SameSite=Lax; Max-Age=${seconds}${secureCookies ? '; Secure' : ''}`,

    sweep: () => sweepSignIn(pool),

    close: () => pool.end(),
  };
}

/** The e-mail address somebody tries, as a key: whatever they sent, of a bounded length. */
function addressOf(body: unknown): string {
  const email = typeof body === 'object' && body !== null && 'email' in body ? body.email : '';
  return digestOf(String(email).normalize('NFC').trim().toLowerCase());
}

/** The session's token out of a Cookie header, when its signature is ours: no stranger's cookie reaches the database. */
function tokenIn(header: string | null | undefined, name: string, secret: string): string | null {
  for (const part of header?.split(';') ?? []) {
    const [key, ...rest] = part.split('=');
    if (key?.trim() !== name) continue;
    let value: string;
    try {
      value = decodeURIComponent(rest.join('=').trim());
    } catch {
      continue;
    }
    const dot = value.lastIndexOf('.');
    const token = value.slice(0, Math.max(dot, 0));
    const given = Buffer.from(value.slice(dot + 1), 'base64');
    const right = createHmac('sha256', secret).update(token).digest();
    if (token !== '' && given.length === right.length && timingSafeEqual(given, right))
      return token;
  }
  return null;
}

function watch(pool: ReturnType<typeof rolePool>, onQuery: (sql: string) => void): void {
  pool.on('connect', (client) => {
    const query = client.query.bind(client);
    client.query = ((...given: Parameters<typeof query>) => {
      const first: unknown = given[0];
      onQuery(typeof first === 'string' ? first : String((first as { text?: unknown }).text ?? ''));
      return query(...given);
    }) as typeof client.query;
  });
}
