import { createHash, randomUUID } from 'node:crypto';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import express, { type ErrorRequestHandler } from 'express';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '../../../tests/support/database.ts';
import { createSignIn, type SignIn } from '../src/people/sign-in.ts';
import { createThrottle } from '../src/people/throttle.ts';

const origin = 'http://hangar.test';
const secret = 'a secret for tests alone, of more than thirty-two characters';
const password = 'tide and timber 77';
const personIds = [randomUUID(), randomUUID()] as const;
let database: TestDatabase;
let admin: pg.Client;
let served: { url: string; server: Server };
let shopId: string;
let accountId: string;
const queries: string[] = [];
let signIn: SignIn;

const settings = () => ({ appUrl: database.appUrl, origins: [origin] as const, secret });

/** Sign-in alone behind Express, as the API mounts it. A fault that reaches Express becomes a bare 500. */
async function serve(served: SignIn): Promise<{ url: string; server: Server }> {
  const app = express();
  app.use('/auth', served.signInHandler);
  const onFault: ErrorRequestHandler = (error, _request, response, _next) =>
    void response.status(500).send(`fault: ${error}`);
  app.use(onFault);
  const server = await new Promise<Server>((resolve) => {
    const listening = app.listen(0, '127.0.0.1', () => resolve(listening));
  });
  return { server, url: `http://127.0.0.1:${(server.address() as AddressInfo).port}` };
}

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  shopId = randomUUID();
  await admin.query(
    `insert into shop (id, name, place, time_zone, currency, time_in_service_basis)
     values ($1, 'Saltmarsh Works', 'the island', 'Etc/UTC', 'USD', 'engine-on meter')`,
    [shopId],
  );
  for (const [index, id] of personIds.entries()) {
    await admin.query(
      `insert into person (id, shop_id, name, initials, roles) values ($1, $2, 'Invented Person', $3, '{mechanic}')`,
      [id, shopId, `P${index}`],
    );
  }
  signIn = createSignIn({
    ...settings(),
    secureCookies: false,
    onQuery: (sql) => queries.push(sql),
  });
  served = await serve(signIn);
  accountId = await signIn.createAccount({
    email: 'Wren@Hangar.test',
    password,
    name: 'Wren',
    shopId,
    personId: personIds[0],
  });
});

afterAll(async () => {
  served.server.close();
  await signIn.close();
  await admin.end();
  await database.drop();
});

type Sent = { body?: unknown; headers?: Record<string, string>; method?: string };

const send = (path: string, { body, headers = {}, method = 'POST' }: Sent = {}) =>
  fetch(`${served.url}${path}`, {
    method,
    headers: {
      origin,
      ...(body !== undefined && { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body !== undefined && { body: typeof body === 'string' ? body : JSON.stringify(body) }),
  });

const enter = (email = 'wren@hangar.test', word = password, headers = {}) =>
  send('/auth/sign-in/email', { body: { email, password: word }, headers });

/** The Cookie header that a browser would send back. */
const cookieOf = (response: Response): string =>
  response.headers
    .getSetCookie()
    .map((each) => each.split(';')[0])
    .join('; ');

const tokenOf = (cookie: string): string =>
  decodeURIComponent(cookie.slice(cookie.indexOf('=') + 1)).split('.')[0] ?? '';

describe('signing in', () => {
  it('sets a cookie that scripts cannot read, and its answer carries nothing else', async () => {
    const response = await enter();
    expect(response.status).toBe(200);
    const cookies = response.headers.getSetCookie();
    expect(cookies).toHaveLength(1);
    expect(cookies[0]).toMatch(/^fairlead\.session_token=/);
    expect(cookies[0]).toMatch(/; Max-Age=1209600;/);
    expect(cookies[0]).toMatch(/; Path=\/;/);
    expect(cookies[0]).toMatch(/; HttpOnly/);
    expect(cookies[0]).toMatch(/; SameSite=Lax/);
    expect(cookies[0]).not.toMatch(/Secure/);
    const text = await response.text();
    expect(text).toBe('{"ok":true}');
    expect(text).not.toContain(tokenOf(cookieOf(response)));
    expect(response.headers.get('cache-control')).toBe('no-store');
  });

  it('behind https the cookie is for https alone', async () => {
    const httpsOrigin = 'https://hangar.test';
    const secure = createSignIn({ ...settings(), origins: [httpsOrigin], secureCookies: true });
    const { url, server } = await serve(secure);
    try {
      const response = await fetch(`${url}/auth/sign-in/email`, {
        method: 'POST',
        headers: { origin: httpsOrigin, 'content-type': 'application/json' },
        body: JSON.stringify({ email: 'wren@hangar.test', password }),
      });
      expect(response.headers.getSetCookie()[0]).toMatch(
        /^__Secure-fairlead\.session_token=.*; Secure/,
      );
      expect(await secure.identify({ cookie: cookieOf(response) })).toMatchObject({ accountId });
      expect(await signIn.identify({ cookie: cookieOf(response) })).toBeNull();
    } finally {
      server.close();
      await secure.close();
    }
  });

  it('the token is in no table: only its digest', async () => {
    const token = tokenOf(cookieOf(await enter()));
    expect(token.length).toBeGreaterThanOrEqual(32);
    const { rows } = await admin.query('select token from identity.session where account_id = $1', [
      accountId,
    ]);
    const digest = createHash('sha256').update(token).digest('hex');
    expect(rows.map((row) => row.token)).toContain(digest);
    const { rows: everything } = await admin.query(
      `select query_to_xml('select * from identity.session, identity.account, identity.credential, identity.verification', true, false, '')::text as dump`,
    );
    expect(everything[0].dump).not.toContain(token);
    // And the table itself would not take one.
    await expect(
      admin.query(
        `insert into identity.session (account_id, token, expires_at) values ($1, $2, now())`,
        [accountId, token],
      ),
    ).rejects.toThrow(/session_token_check/);
  });

  it('an unknown address and a wrong password get the same answer', async () => {
    const wrong = await enter('wren@hangar.test', 'not the password');
    const unknown = await enter('nobody@hangar.test', 'not the password');
    expect(wrong.status).toBe(401);
    expect(unknown.status).toBe(401);
    expect(await wrong.text()).toBe(await unknown.text());
    expect([...wrong.headers.keys()].sort()).toEqual([...unknown.headers.keys()].sort());
    expect(wrong.headers.getSetCookie()).toEqual([]);
  });

  it('a request from another site is refused, with and without a cookie of ours', async () => {
    const cookie = cookieOf(await enter());
    for (const headers of [
      { origin: 'https://elsewhere.test' },
      { origin: 'null' },
      { origin: `${origin}.elsewhere.test` },
      { origin: 'https://elsewhere.test', cookie },
    ]) {
      const response = await enter('wren@hangar.test', password, headers);
      expect(response.status).toBe(403);
      expect(response.headers.getSetCookie()).toEqual([]);
      const out = await send('/auth/sign-out', { body: {}, headers: { ...headers, cookie } });
      expect(out.status).toBe(403);
    }
    expect(await signIn.identify({ cookie })).toMatchObject({ accountId });
  });

  it('after ten failures an address has to wait, whether it has an account or not', async () => {
    for (const email of ['heron@hangar.test', 'nobody-else@hangar.test']) {
      if (email.startsWith('heron')) {
        await signIn.createAccount({
          email,
          password,
          name: 'Heron',
          shopId,
          personId: personIds[1],
        });
      }
      const statuses: number[] = [];
      for (let attempt = 1; attempt <= 11; attempt += 1) {
        statuses.push((await enter(email, 'not the password')).status);
      }
      expect(statuses).toEqual([...Array(10).fill(401), 429]);
      const refused = await enter(email.toUpperCase(), password);
      expect(refused.status).toBe(429);
      expect(Number(refused.headers.get('retry-after'))).toBeGreaterThan(500);
      expect(await refused.json()).toEqual({
        error: {
          code: 'TOO_MANY_ATTEMPTS',
          message: expect.stringMatching(/Try again in \d+ min/),
        },
      });
    }
    expect((await enter()).status).toBe(200);
  });
});

describe('accounts are made by invitation', () => {
  it('signing up over HTTP is refused alike for a known and an unknown address', async () => {
    const answers: string[] = [];
    for (const email of ['wren@hangar.test', 'stranger@hangar.test']) {
      const response = await send('/auth/sign-up/email', { body: { email, password, name: 'X' } });
      expect(response.status).toBe(403);
      answers.push(await response.text());
    }
    expect(answers[0]).toBe(answers[1]);
    expect(answers[0]).toContain('BY_INVITATION');
    const { rows } = await admin.query(
      `select from identity.account where email = 'stranger@hangar.test'`,
    );
    expect(rows).toEqual([]);
  });

  it('every other address of the library is closed', async () => {
    for (const [method, path] of [
      ['GET', '/auth/get-session'],
      ['GET', '/auth/list-sessions'],
      ['POST', '/auth/update-user'],
      ['POST', '/auth/change-email'],
      ['POST', '/auth/request-password-reset'],
      ['GET', '/auth/ok'],
      ['GET', '/auth/error'],
      ['GET', '/auth/sign-in/email'],
      ['POST', '/auth/sign-in/social'],
      ['POST', '/auth//sign-in/email'],
      ['POST', '/auth/sign-in/email/'],
    ] as const) {
      const response = await send(path, { method });
      expect([path, response.status]).toEqual([path, 404]);
    }
  });

  it('refuses what is no address, a short password, a taken address, a person with an account or of another shop', async () => {
    const spare = randomUUID();
    const request = { email: 'tern@hangar.test', password, name: 'Tern', shopId, personId: spare };
    const attempts = [
      [{ email: 'tern' }, 'email_invalid', /"tern" is not an e-mail address/],
      [{ password: 'short' }, 'password_length', /has 5 characters; it needs 10 to 128/],
      [{ email: 'WREN@hangar.test' }, 'email_taken', /already/],
      [{ personId: personIds[0] }, 'person_has_account', /has an account already/],
      [{}, 'person_unknown', /has no person/],
      [{ personId: personIds[0], shopId: randomUUID() }, 'person_unknown', /has no person/],
    ] as const;
    for (const [change, reason, message] of attempts) {
      await expect(signIn.createAccount({ ...request, ...change })).rejects.toMatchObject({
        name: 'AccountRefused',
        reason,
        message: expect.stringMatching(message),
      });
    }
    const { rows } = await admin.query(
      `select from identity.account where email = 'tern@hangar.test'`,
    );
    expect(rows).toEqual([]);
  });

  it('keeps no password: only a salted digest', async () => {
    const { rows } = await admin.query(
      'select password from identity.credential where account_id = $1',
      [accountId],
    );
    expect(rows[0].password).toMatch(/^[0-9a-f]{32}:[0-9a-f]{128}$/);
  });
});

describe('who is asking', () => {
  it('is told by one SQL statement, from either kind of headers', async () => {
    const cookie = cookieOf(await enter());
    queries.length = 0;
    const known = await signIn.identify({ cookie: `other=1; ${cookie}; more=2` });
    expect(queries).toHaveLength(1);
    expect(known).toEqual({
      accountId,
      shopId,
      personId: personIds[0],
      sessionId: expect.any(String),
      // Signed in with a password, on no shared device.
      deviceId: null,
    });
    expect(await signIn.identify(new Headers({ cookie }))).toEqual(known);
  });

  it('without a cookie signed by us the database is not asked', async () => {
    const cookie = cookieOf(await enter());
    const token = tokenOf(cookie);
    queries.length = 0;
    for (const forged of [
      undefined,
      '',
      'fairlead.session_token=',
      'fairlead.session_token=%E0%A4%A',
      `fairlead.session_token=${token}`,
      `fairlead.session_token=${token}.`,
      `fairlead.session_token=${token}.${Buffer.alloc(32).toString('base64')}`,
      `fairlead.session_token=${encodeURIComponent(`x${decodeURIComponent(cookie.split('=')[1] ?? '')}`)}`,
      cookie.replace('fairlead', 'fairleads'),
    ]) {
      expect(await signIn.identify({ cookie: forged })).toBeNull();
    }
    expect(queries).toEqual([]);
  });

  it('is nobody once the session is over, ended, or its person no longer a member', async () => {
    const cookies = [
      cookieOf(await enter()),
      cookieOf(await enter()),
      cookieOf(await enter()),
    ] as const;
    const out = await send('/auth/sign-out', { body: {}, headers: { cookie: cookies[0] } });
    expect(out.status).toBe(200);
    expect(out.headers.getSetCookie()[0]).toMatch(/^fairlead\.session_token=; Max-Age=0/);
    expect(await signIn.identify({ cookie: cookies[0] })).toBeNull();
    expect(await signIn.identify({ cookie: cookies[1] })).not.toBeNull();

    const digest = createHash('sha256').update(tokenOf(cookies[1])).digest('hex');
    await admin.query(
      `update identity.session set expires_at = now() - interval '1 second' where token = $1`,
      [digest],
    );
    expect(await signIn.identify({ cookie: cookies[1] })).toBeNull();
    expect(await signIn.sweep()).toBe(1);

    expect(await signIn.identify({ cookie: cookies[2] })).not.toBeNull();
    await signIn.endSessions(accountId);
    expect(await signIn.identify({ cookie: cookies[2] })).toBeNull();
  });

  it('a stolen table is worth nothing: its digest is no token', async () => {
    await enter();
    const { rows } = await admin.query('select token from identity.session limit 1');
    expect(await signIn.identify({ cookie: `fairlead.session_token=${rows[0].token}` })).toBeNull();
  });
});

describe('bad input', () => {
  it('is answered with a clear refusal, never with a fault', async () => {
    for (const body of [
      '{',
      '[]',
      'null',
      '"text"',
      '{}',
      { email: 5, password: [] },
      { email: { a: 1 }, password },
      { email: 'not an address', password },
      { email: `${'a'.repeat(300)}@hangar.test`, password },
      { email: 'wren@hangar.test', password: 'x'.repeat(5_000) },
      { email: "' or 1=1 --@hangar.test", password },
      { email: 'wr\u0000en@hangar.test', password },
      { email: 'wren@hangar.test', password, callbackURL: 'https://elsewhere.test' },
    ]) {
      const response = await send('/auth/sign-in/email', { body });
      const text = await response.text();
      expect([body, response.status >= 400 && response.status < 500]).toEqual([body, true]);
      expect(JSON.parse(text).error).toMatchObject({
        code: expect.any(String),
        message: expect.any(String),
      });
      expect(text).not.toMatch(/node_modules|at .*\.ts/);
      expect(response.headers.getSetCookie()).toEqual([]);
    }
    const large = await send('/auth/sign-in/email', {
      body: { email: 'a'.repeat(20_000), password },
    });
    expect(large.status).toBe(413);
    const form = await send('/auth/sign-in/email', {
      body: '<a/>',
      headers: { 'content-type': 'text/xml' },
    });
    expect(form.status).toBe(415);
  });

  it('a short secret is refused at the start', () => {
    expect(() => createSignIn({ ...settings(), secureCookies: false, secret: 'short' })).toThrow(
      /has 5 characters and needs at least 32/,
    );
  });

  it('with the database away the answer is 503 and when to try again', async () => {
    const away = new URL(database.appUrl);
    away.port = '1';
    const lost = createSignIn({ ...settings(), appUrl: away.href, secureCookies: false });
    const { url, server } = await serve(lost);
    try {
      const response = await fetch(`${url}/auth/sign-in/email`, {
        method: 'POST',
        headers: { origin, 'content-type': 'application/json' },
        body: JSON.stringify({ email: 'wren@hangar.test', password }),
      });
      expect(response.status).toBe(503);
      expect(response.headers.get('retry-after')).toBe('3');
    } finally {
      server.close();
      await lost.close();
    }
  });
});

describe('the throttle', () => {
  it('counts by key, lets go when its time is over, and forgets on success', () => {
    let time = 0;
    const throttle = createThrottle(2, 10_000, () => time);
    expect([throttle.attempt('a'), throttle.attempt('a'), throttle.attempt('a')]).toEqual([
      0, 0, 10,
    ]);
    expect(throttle.attempt('b')).toBe(0);
    time = 4_000;
    expect(throttle.attempt('a')).toBe(6);
    time = 10_000;
    expect(throttle.attempt('a')).toBe(0);
    throttle.attempt('a');
    throttle.forgive('a');
    expect([throttle.attempt('a'), throttle.attempt('a')]).toEqual([0, 0]);
  });
});
