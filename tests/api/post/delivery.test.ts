/** A mail server that is away, slow, choosy or not to be trusted: what becomes of a mail, and what the desk is told. */
import { askOverdueMails } from '@fairlead/api/post/ask-overdue';
import { nextTry, TRIED_FOR_MS } from '@fairlead/api/post/next-try';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { startMailServer } from '../../support/mail-server.ts';
import { makeShop } from '../../support/shop.ts';
import { sentQuote } from '../quoting/quoting-shop.ts';
import { change, happened, hurry, post, settings, settled, withWorker } from './post-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('a server that is down loses nothing: the mail waits, says why and until when, and goes once it is up', async () => {
  const shop = await makeShop(api);
  const down = await startMailServer();
  await down.close();
  await sentQuote(shop);
  await withWorker(api, settings(down.port), async (worker) => {
    const first = await happened(shop, 'delayed');
    expect(first.state).toBe('waits');
    const delay = first.events.at(-1);
    expect(delay?.words).toContain('ECONNREFUSED');
    const pause = Date.parse(delay?.nextAt ?? '') - Date.parse(delay?.at ?? '');
    expect(Math.abs(pause - 60_000)).toBeLessThan(2_000);
    await hurry(worker, shop);
    await happened(shop, 'delayed', 2);
    const up = await startMailServer({ port: down.port });
    try {
      await hurry(worker, shop);
      const [sent] = await settled(shop, 'sent');
      expect(sent?.events.map(({ kind }) => kind)).toEqual([
        'tried',
        'delayed',
        'tried',
        'delayed',
        'tried',
        'sent',
      ]);
      expect(up.arrived).toHaveLength(1);
    } finally {
      await up.close();
    }
  });
});

it('a recipient who is refused for good is told to the desk with the server’s words, and is tried again only when asked', async () => {
  const shop = await makeShop(api);
  const server = await startMailServer();
  server.refuse = () => ({ code: 550, words: 'No such mailbox here' });
  await sentQuote(shop);
  await withWorker(api, settings(server.port), async (worker) => {
    const [failed] = await settled(shop, 'failed');
    expect(failed?.events.at(-1)).toMatchObject({
      kind: 'refused',
      words: expect.stringContaining('550 No such mailbox here'),
    });
    await askOverdueMails(api.client, worker.pool, 0);
    await new Promise((done) => setTimeout(done, 400));
    expect((await post(shop))[0]?.events).toHaveLength(2);
    server.refuse = null;
    expect(await change(shop, 'tryMailAgain', failed?.id ?? '')).toMatchObject({ state: 'waits' });
    await settled(shop, 'sent');
  });
  expect(server.arrived).toHaveLength(1);
  await server.close();
});

it('a refusal for now (4yz) is tried again; put away, the mail never goes', async () => {
  const shop = await makeShop(api);
  const server = await startMailServer();
  server.refuse = () => ({ code: 451, words: 'Come back later' });
  await sentQuote(shop);
  await withWorker(api, settings(server.port), async (worker) => {
    const mail = await happened(shop, 'delayed');
    expect(mail.events.at(-1)?.words).toContain('451 Come back later');
    const why = 'They were called instead.';
    expect(await change(shop, 'putMailAway', mail.id, why)).toMatchObject({ state: 'put_away' });
    expect(await change(shop, 'putMailAway', mail.id, why)).toMatchObject({ state: 'put_away' });
    server.refuse = null;
    await hurry(worker, shop);
    await new Promise((done) => setTimeout(done, 400));
    const [away] = await post(shop);
    expect(away?.events.map(({ kind }) => kind)).toEqual(['tried', 'delayed', 'put_away']);
    expect(await change(shop, 'tryMailAgain', mail.id)).toMatchObject({ code: 'AGAINST_RULE' });
  });
  expect(server.arrived).toEqual([]);
  await server.close();
});

it('a slow server gets a mail once, however often it is asked for meanwhile', async () => {
  const shop = await makeShop(api);
  const server = await startMailServer();
  server.beforeAnswer = () => new Promise((done) => setTimeout(done, 1500));
  await sentQuote(shop);
  await withWorker(api, settings(server.port), async (worker) => {
    await happened(shop, 'tried');
    for (let times = 0; times < 5; times += 1) {
      await askOverdueMails(api.client, worker.pool, 0);
      await new Promise((done) => setTimeout(done, 150));
    }
    const [sent] = await settled(shop, 'sent');
    expect(sent?.events.map(({ kind }) => kind)).toEqual(['tried', 'sent']);
  });
  expect(server.arrived).toHaveLength(1);
  await server.close();
});

describe('never without TLS where it is wanted, and never a password to a server that may not have it', () => {
  it.each([
    ['a server without STARTTLS', { tls: 'starttls' as const }, /STARTTLS|TLS/i],
    [
      'a certificate that nobody vouches for',
      { tls: 'starttls' as const, offers: true },
      /self-signed|certificate|expired/i,
    ],
    ['a wrong password', { login: { user: 'shop', pass: 'wrong' } }, /535/],
  ])(
    '%s',
    async (_, {
      offers = false,
      ...over
    }: { offers?: boolean; tls?: 'starttls'; login?: { user: string; pass: string } }, words) => {
      const shop = await makeShop(api);
      const server = await startMailServer({
        ...(offers ? { disabledCommands: [] } : { allowInsecureAuth: true }),
        onAuth: (_auth, _session, done) =>
          done(Object.assign(new Error('Wrong'), { responseCode: 535 })),
      });
      await sentQuote(shop);
      await withWorker(api, settings(server.port, over), async () => {
        const mail = await happened(shop, 'delayed');
        expect(mail.events.at(-1)?.words).toMatch(words);
        expect(JSON.stringify(mail)).not.toContain('wrong');
      });
      expect(server.arrived).toEqual([]);
      await server.close();
    },
  );
});

describe('when it is tried next', () => {
  const since = new Date('2031-05-04T08:00:00Z');
  it('the pauses grow from a minute to four hours, and it is given up after five days (RFC 5321, 4.5.4.1), not before', () => {
    let now = since;
    const pauses: number[] = [];
    for (let tries = 1; ; tries += 1) {
      const next = nextTry(tries, since, now);
      if (next === null) break;
      pauses.push((next.getTime() - now.getTime()) / 60_000);
      now = next;
    }
    expect(pauses.slice(0, 9)).toEqual([1, 5, 15, 30, 60, 120, 240, 240, 240]);
    expect([...pauses].sort((one, other) => one - other)).toEqual(pauses);
    const tried = now.getTime() - since.getTime();
    expect(tried).toBeLessThanOrEqual(TRIED_FOR_MS);
    expect(tried).toBeGreaterThan(4 * 86_400_000);
  });
  it.each([0, -1, 1.5])('after %s tries there is none', (tries) => {
    expect(() => nextTry(tries, since, since)).toThrow(RangeError);
  });
});
