/** A quote by e-mail, to a real SMTP server: what arrives, what is kept, and what is shown again. */
import { rm } from 'node:fs/promises';
import path from 'node:path';
import { sha256 } from '@fairlead/proof';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { type MailServer, startMailServer } from '../../support/mail-server.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import {
  draft,
  forOwner,
  makeTasks,
  quoted,
  refused,
  send,
  sentQuote,
  tasksOf,
} from '../quoting/quoting-shop.ts';
import { change, post, settings, settled, withWorker } from './post-shop.ts';

let api: TestApi;
let server: MailServer;
beforeAll(async () => {
  api = await startApi();
  server = await startMailServer();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await server.close();
  await api.stop();
});

/** Everything that the database keeps of a shop's mail, in one text. */
async function keptOf(shop: TestShop): Promise<string> {
  const rows = await shop.inside(async (tx) => [
    await tx.mail.findMany(),
    await tx.mailPaper.findMany(),
    await tx.mailFile.findMany(),
    await tx.mailEvent.findMany(),
    await tx.audit.findMany({ select: { before: true, after: true } }),
  ]);
  return JSON.stringify(rows, (_, value) => (typeof value === 'bigint' ? `${value}` : value));
}

it('goes to the owner with its words, its PDF and a link that opens; the secret is kept nowhere', async () => {
  const shop = await makeShop(api, { email: 'desk@shop.example' });
  const quote = await sentQuote(shop);
  expect(quote.state).toBe('sent');
  const [mail] = await withWorker(api, settings(server.port), () => settled(shop, 'sent'));
  const came = server.arrived.filter(({ to }) => to.includes('owner@strand.example'));
  const [arrived] = came;
  if (!mail || !arrived) throw new Error('nothing arrived');
  expect(came).toHaveLength(1);
  const { parsed } = arrived;
  expect([arrived.from, arrived.to]).toEqual(['post@fairlead.example', ['owner@strand.example']]);
  expect(parsed.from?.text).toBe('"Test Shop" <post@fairlead.example>');
  expect(parsed.replyTo?.text).toBe('desk@shop.example');
  expect(parsed.subject).toBe(mail.subject);
  expect(mail.subject).toBe(
    `Quote ${quote.number}, revision 1: QQ-${shop.shopId.slice(0, 4).toUpperCase()}, ${quote.title}`,
  );
  // RFC 5322, 3.6.4: one identifier, ours by the mail's id; RFC 3834: somebody asked for it, so it is not automatic.
  const [row] = await shop.inside((tx) => tx.mail.findMany());
  expect(parsed.messageId).toBe(`<${row?.id}@fairlead.example>`);
  expect(parsed.headers.get('auto-submitted')).toBeUndefined();
  expect(parsed.date).toEqual(new Date(Math.floor((row?.queuedAt.getTime() ?? 0) / 1000) * 1000));

  const secret = /http:\/\/shop\.test\/owner\/([\w-]{43})\n/.exec(parsed.text ?? '')?.[1] ?? '';
  const page = await fetch(`${api.origin}/owner/${secret}`);
  expect(await page.json()).toMatchObject({
    you: { name: 'Test Owner' },
    offers: [{ number: quote.number }],
  });
  const kept = await keptOf(shop);
  expect(kept).not.toContain(secret);
  // Sent, the words are shown again, but not what stood in place of the link.
  expect(mail.text).not.toContain(secret);
  expect(mail.text).toContain('(here stands the private link, which is kept nowhere)');
  expect(mail.text.split('\n')[0]).toBe(parsed.text?.split('\n')[0]);

  const [attached] = parsed.attachments;
  const [paper] = mail.papers;
  expect(parsed.attachments).toHaveLength(1);
  expect(attached?.contentType).toBe('application/pdf');
  expect(attached?.filename).toBe(paper?.filename);
  expect(attached?.content.subarray(0, 5).toString()).toBe('%PDF-');
  const cookie = await shop.cookie('front_desk');
  const shown = await fetch(`${api.origin}${paper?.url}`, { headers: { cookie } });
  expect(shown.status).toBe(200);
  const bytes = Buffer.from(await shown.arrayBuffer());
  expect(sha256(bytes)).toBe(sha256(attached?.content ?? Buffer.alloc(0)));
  expect(mail.events.map(({ kind }) => kind)).toEqual(['tried', 'sent']);
  const mechanic = { headers: { cookie: await shop.cookie('mechanic') } };
  expect((await fetch(`${api.origin}${paper?.url}`, mechanic)).status).toBe(403);
  // Sent, it neither goes again nor is put away.
  for (const name of ['tryMailAgain', 'putMailAway'] as const)
    expect(await change(shop, name, mail.id)).toMatchObject({ code: 'AGAINST_RULE' });
});

it('without a mail server it is kept and shown whole, link and all, and goes when there is one', async () => {
  const shop = await makeShop(api);
  await sentQuote(shop);
  const before = await post(shop);
  expect(before[0]).toMatchObject({ state: 'waits', papers: [{ filename: null }] });
  const [kept] = await withWorker(api, null, () => settled(shop, 'kept'));
  const secret = /owner\/([\w-]{43})/.exec(kept?.text ?? '')?.[1] ?? '';
  expect((await fetch(`${api.origin}/owner/${secret}`)).status).toBe(200);
  expect(kept?.papers[0]).toMatchObject({ filename: expect.stringMatching(/^quote-.*\.pdf$/) });
  const asked = await shop.as<{ sendsMail: boolean }>('front_desk', '{ sendsMail }');
  expect(asked.data).toEqual({ sendsMail: false });
  // Nobody but the desk and the manager reads it.
  const stranger = await shop.as('mechanic', '{ mails(first: 1) { edges { node { text } } } }');
  expect(stranger.errors?.[0]?.extensions.code).toBe('FORBIDDEN');
  // A mail server alone sends nothing of what was kept: somebody asks for it.
  await withWorker(api, settings(server.port), async () => {
    await new Promise((done) => setTimeout(done, 500));
    expect((await post(shop))[0]?.state).toBe('kept');
    expect(await change(shop, 'tryMailAgain', kept?.id ?? '')).toMatchObject({ state: 'waits' });
    await settled(shop, 'sent');
  });
  const came = server.arrived.filter(({ parsed }) => parsed.text?.includes(secret));
  expect(came).toHaveLength(1);
});

it('is not sent, and not recorded as sent, where the owner has no address', async () => {
  const shop = await makeShop(api);
  const set = (email: string | null) =>
    shop.as<{ done: { email?: string; message?: string; field?: string } }>(
      'front_desk',
      'mutation($input: SetContactEmailInput!) { done: setContactEmail(input: $input) { ... on Contact { email } ... on Refusal { message field } } }',
      { input: { contactId: forOwner(shop).contactId, email } },
    );
  expect((await set(null)).data?.done).toEqual({ email: null });
  const tasks = tasksOf(await makeTasks(shop, 1));
  const { id } = quoted(await draft(shop, { ...forOwner(shop), tasks }));
  expect(refused(await send(shop, { quoteId: id, revision: 1, channel: 'email' }))).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('Test Owner has no e-mail address'),
  });
  expect(await shop.inside((tx) => tx.quoteSending.count())).toBe(0);
  expect(await shop.inside((tx) => tx.ownerLink.count())).toBe(0);
  // RFC 5321 and 5322: one address, a dot-atom before the @, labels after it.
  for (const wrong of [
    'no address',
    'a@b@c',
    'a@b.example, c@d.example',
    'a b@c.example',
    '<a@b.example>',
    'a@-b.example',
    `${'x'.repeat(65)}@b.example`,
    'a..b@c.example',
    'a@b.example\r\nBcc: c@d.example',
  ])
    expect((await set(wrong)).data?.done, wrong).toMatchObject({ field: 'email' });
  expect((await set(' Owner+shop@Bücher.example ')).data?.done).toEqual({
    email: 'Owner+shop@xn--bcher-kva.example',
  });
  expect(quoted(await send(shop, { quoteId: id, revision: 1, channel: 'email' })).state).toBe(
    'sent',
  );
});

it('no name and no title begins another field of the header', async () => {
  const shop = await makeShop(api);
  const evil = 'Mr Sand\r\nBcc: all@everybody.example\r\n\r\n<b>';
  await shop.inside((tx) =>
    tx.contact.updateMany({ data: { name: evil, email: 'sand@strand.example' } }),
  );
  const tasks = tasksOf(await makeTasks(shop, 1));
  const title = 'Visit\nX-Evil: yes\u2028Bcc: all@everybody.example';
  const { id } = quoted(await draft(shop, { ...forOwner(shop), tasks, title }));
  quoted(await send(shop, { quoteId: id, revision: 1, channel: 'email' }));
  await withWorker(api, settings(server.port), () => settled(shop, 'sent'));
  const came = server.arrived.filter(({ to }) => to.includes('sand@strand.example'));
  expect(came.map(({ to }) => to)).toEqual([['sand@strand.example']]);
  const [arrived] = came;
  expect([...(arrived?.parsed.headers.keys() ?? [])]).not.toEqual(
    expect.arrayContaining(['bcc', 'x-evil']),
  );
  const header = arrived?.raw.split('\r\n\r\n')[0] ?? '';
  expect(header).not.toMatch(/^(bcc|x-evil):/im);
  // RFC 5322, 2.1.1: no line is longer than 998 characters.
  for (const line of arrived?.raw.split('\r\n') ?? []) expect(line.length).toBeLessThanOrEqual(998);
});

it('whose link was taken back before it went says so, and does not go', async () => {
  const shop = await makeShop(api);
  await sentQuote(shop);
  await shop.inside((tx) => tx.ownerLink.updateMany({ data: { revokedAt: new Date() } }));
  const before = server.arrived.length;
  const [mail] = await withWorker(api, settings(server.port), () => settled(shop, 'failed'));
  expect(mail?.events.at(-1)).toMatchObject({
    kind: 'refused',
    words: expect.stringContaining('taken back'),
  });
  expect(server.arrived).toHaveLength(before);
});

it('whose paper is gone from the disk says so, and does not go', async () => {
  const shop = await makeShop(api);
  await sentQuote(shop);
  await withWorker(api, null, () => settled(shop, 'kept'));
  await rm(path.join(api.uploadsDir, 'mail', shop.shopId), { recursive: true });
  const [kept] = await post(shop);
  const cookie = await shop.cookie('front_desk');
  const gone = await fetch(`${api.origin}${kept?.papers[0]?.url}`, { headers: { cookie } });
  expect(gone.status).toBe(404);
  await change(shop, 'tryMailAgain', kept?.id ?? '');
  const [mail] = await withWorker(api, settings(server.port), () => settled(shop, 'failed'));
  expect(mail?.events.at(-1)?.words).toContain('not on the disk');
  expect(mail?.events.map(({ kind }) => kind)).toEqual(['kept', 'asked_again', 'refused']);
});
