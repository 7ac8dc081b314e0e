import { randomBytes } from 'node:crypto';
import { hashOf } from '@fairlead/api/owner/secret';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ask, startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { uploaded } from '../../support/upload.ts';
import { rawConnection, stateOf } from '../guarantees/raw.ts';
import {
  draft,
  forOwner,
  gid,
  makeFinding,
  makeTasks,
  quoted,
  tasksOf,
} from '../quoting/quoting-shop.ts';
import { answer, askForLink, linkTo, offeredFinding, offerOf, pageAt } from './owner-shop.ts';

let api: TestApi;
let shop: TestShop;
let ahead = 0;
beforeAll(async () => {
  api = await startApi({ now: () => new Date(Date.now() + ahead * 86_400_000) });
  shop = await makeShop(api);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const get = async (path: string) => {
  const response = await fetch(`${api.origin}${path}`);
  return { status: response.status, body: await response.text(), headers: response.headers };
};
/** What the web server asks before it draws the page. */
const opens = async (path: string) =>
  (await fetch(`${api.origin}${path}`, { method: 'HEAD' })).status;
const links = async (orderId: string, role: Parameters<TestShop['as']>[0] = 'front_desk') =>
  (
    await shop.as<{ ownerLinks: { id: string; contactName: string; revokedAt: string | null }[] }>(
      role,
      'query($orderId: ID!) { ownerLinks(orderId: $orderId) { id contactName createdAt expiresAt revokedAt } }',
      { orderId: gid('WorkOrder', orderId) },
    )
  ).data?.ownerLinks;
const revoke = (linkId: string, of: TestShop = shop) =>
  of.as<{ revokeOwnerLink: { code?: string; revokedAt?: string } }>(
    'front_desk',
    'mutation($linkId: ID!) { revokeOwnerLink(linkId: $linkId) { ... on Refusal { code } ... on OwnerLink { revokedAt } } }',
    { linkId },
  );

it('tells the address once, with 256 random bits, and keeps only its hash', async () => {
  const { order } = await makeFinding(shop);
  const made = await Promise.all(
    [1, 2].map(() => linkTo(shop, { orderId: gid('WorkOrder', order.id) })),
  );
  const [secret = '', other = ''] = made.map((url) => url.replace('/owner/', ''));
  expect(Buffer.from(secret, 'base64url')).toHaveLength(32);
  expect(secret).not.toBe(other);
  const rows = await shop.inside((tx) => tx.ownerLink.findMany({ where: { orderId: order.id } }));
  expect(rows.map(({ secretHash }) => Buffer.from(secretHash).toString('hex')).sort()).toEqual(
    [secret, other].map((each) => Buffer.from(hashOf(each)).toString('hex')).sort(),
  );
  const listed = await links(order.id);
  expect(listed).toHaveLength(2);
  expect(JSON.stringify(listed)).not.toContain(secret);
  const audited = await shop.inside((tx) =>
    tx.audit.findMany({ where: { tableName: 'owner_link' } }),
  );
  expect(audited.length).toBeGreaterThan(0);
  expect(
    JSON.stringify(audited, (_, value: unknown) =>
      typeof value === 'bigint' ? `${value}` : value,
    ),
  ).not.toContain(secret);
});

it('answers a guessed, an expired and a revoked link alike', async () => {
  const { order, link } = await offeredFinding(shop);
  const expired = randomBytes(32).toString('base64url');
  await shop.inside((tx) =>
    tx.ownerLink.create({
      data: {
        orderId: order.id,
        contactId: shop.contactId,
        secretHash: hashOf(expired),
        expiresAt: new Date('2020-01-01'),
      },
    }),
  );
  const page = await pageAt(api, link);
  const [offer] = page.offers;
  if (!offer) throw new Error('no offer');
  expect(await opens(link)).toBe(200);
  const listed = (await links(order.id))?.at(-1);
  expect((await revoke(listed?.id ?? '')).data?.revokeOwnerLink.revokedAt).toBeTruthy();
  const again = await revoke(listed?.id ?? '');
  expect(again.data?.revokeOwnerLink.revokedAt).toBe(
    (await links(order.id))?.find(({ id }) => id === listed?.id)?.revokedAt,
  );

  const dead = [
    link,
    `/owner/${expired}`,
    `/owner/${randomBytes(32).toString('base64url')}`,
    '/owner/x',
    `/owner/${'a'.repeat(3000)}`,
    '/owner/%00',
  ];
  const answers = await Promise.all(dead.map(get));
  for (const { status, body, headers } of answers) {
    expect(status, body.slice(0, 300)).toBe(404);
    expect(body).toBe(answers[0]?.body);
    expect(headers.get('cache-control')).toBe('no-store');
  }
  expect(answers[0]?.body).toContain('Ask the shop for a new one.');
  for (const path of dead) expect(await opens(path)).toBe(404);
  for (const path of dead) {
    const sent = await answer(api, path, offer);
    expect(sent.status).toBe(303);
    expect(sent.location).toBe(path);
  }
  expect(
    await shop.inside((tx) =>
      tx.decision.count({ where: { revision: { quote: { orderId: order.id } } } }),
    ),
  ).toBe(0);
});

it('sends what keeps an address out of logs, caches and search', async () => {
  const { link } = await offeredFinding(shop);
  const { headers } = await get(link);
  expect(headers.get('referrer-policy')).toBe('no-referrer');
  expect(headers.get('cache-control')).toBe('no-store');
  expect(headers.get('x-robots-tag')).toBe('noindex, nofollow');
});

it('shows the photos of its own findings and no other', async () => {
  const picture = await sharp({
    create: { width: 40, height: 30, channels: 3, background: '#888' },
  })
    .jpeg()
    .toBuffer();
  const id = await uploaded(api, await shop.cookie('mechanic'), picture, 'Grey streak');
  const key = Buffer.from(id, 'base64url').toString().split(':')[1] ?? '';
  const one = await offeredFinding(shop);
  const other = await offeredFinding(shop);
  await shop.inside((tx) =>
    tx.findingPhoto.create({ data: { findingId: one.finding.id, photoId: key, position: 1 } }),
  );
  expect((await pageAt(api, one.link)).order?.findings[0]?.photos).toMatchObject([{ id }]);
  const shown = await fetch(`${api.origin}${one.link}/photos/${id}/large`);
  expect(shown.status).toBe(200);
  expect(shown.headers.get('content-type')).toBe('image/jpeg');
  expect(shown.headers.get('cache-control')).toBe('no-store');
  for (const path of [
    `${other.link}/photos/${id}/large`,
    `${one.link}/photos/${id}/huge`,
    `/owner/guessed/photos/${id}/large`,
  ])
    expect((await get(path)).status, path).toBe(404);
  expect((await get(`${one.link}/photos/x/large`)).status).toBe(400);
});

it('is made by the desk alone, for a contact of the aircraft, to what is there and was sent', async () => {
  const { order } = await makeFinding(shop);
  const orderId = gid('WorkOrder', order.id);
  expect(await askForLink(shop, { orderId }, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
  expect(await askForLink(shop, {})).toMatchObject({ code: 'BAD_INPUT' });
  for (const days of [0, 366, -1])
    expect(await askForLink(shop, { orderId, days })).toMatchObject({ code: 'BAD_INPUT' });
  const stranger = await shop.inside((tx) =>
    tx.contact.create({ data: { shopId: shop.shopId, name: 'Stranger' } }),
  );
  expect(await askForLink(shop, { orderId, contactId: gid('Contact', stranger.id) })).toMatchObject(
    { code: 'AGAINST_RULE' },
  );
  const unsent = quoted(
    await draft(shop, { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) }),
  );
  expect(await askForLink(shop, { quoteId: unsent.id })).toMatchObject({ code: 'AGAINST_RULE' });
  const elsewhere = await makeShop(api);
  expect(await askForLink(elsewhere, { orderId })).toMatchObject({ code: 'NOT_FOUND' });
  await linkTo(shop, { orderId });
  const [link] = (await links(order.id)) ?? [];
  expect((await revoke(link?.id ?? '', elsewhere)).data?.revokeOwnerLink.code).toBe('NOT_FOUND');
  expect(await links(order.id, 'mechanic')).toBeUndefined();
  expect((await ask(api.origin, '{ ownerLinks { id } }')).errors?.[0]?.extensions.code).toBe(
    'SIGN_IN_NEEDED',
  );
});

it('runs out after the days that were given, also for an answer', async () => {
  const { quote, order, link } = await offeredFinding(shop);
  const offer = offerOf(await pageAt(api, link), quote);
  ahead = 31;
  const sent = await answer(api, link, offer);
  ahead = 0;
  const { note } = await pageAt(api, sent.location);
  expect(note).toBe('This link was taken back or has run out.');
  expect(
    await shop.inside((tx) =>
      tx.decision.count({ where: { revision: { quote: { orderId: order.id } } } }),
    ),
  ).toBe(0);
});

it('reads, under the role of the link, columns that say how far the work is, and none that say who or how long', async () => {
  const { order, link } = await offeredFinding(shop);
  const stranger = await shop.inside(async (tx) => {
    const item = await tx.workItem.findFirstOrThrow({ where: { orderId: order.id } });
    await tx.itemEvent.create({
      data: {
        itemId: item.id,
        kind: 'waiting',
        waitingFor: 'parts',
        note: 'private',
        byId: shop.people.mechanic.id,
      },
    });
    return tx.contact.create({ data: { shopId: shop.shopId, name: 'Stranger' } });
  });
  expect((await pageAt(api, link)).order?.items).toMatchObject([
    { state: 'waiting', waitingFor: 'parts' },
  ]);
  const app = await rawConnection(api.database.appUrl);
  const asLink = async <T>(work: () => Promise<T>): Promise<T> => {
    await app.query('BEGIN');
    try {
      await app.query("SELECT set_config('role', 'fairlead_link', true)");
      await app.query('SELECT * FROM resolve_link($1)', [
        Buffer.from(hashOf(link.replace('/owner/', ''))),
      ]);
      return await work();
    } finally {
      await app.query('ROLLBACK');
    }
  };
  for (const sql of [
    'SELECT note FROM item_event',
    'SELECT work_done FROM item_event',
    'SELECT started_at FROM stretch',
    'SELECT person_id FROM stretch',
    'SELECT email FROM contact',
    'SELECT name FROM person',
    "UPDATE item_event SET kind = 'done'",
  ])
    expect(await asLink(() => stateOf(app.query(sql))), sql).toBe('42501');
  const names = await asLink(
    async () => (await app.query('SELECT id, name FROM contact')).rows as { id: string }[],
  );
  expect(names).toEqual([{ id: shop.contactId, name: 'Test Owner' }]);
  expect(names.some(({ id }) => id === stranger.id)).toBe(false);
  const events = await asLink(async () => (await app.query('SELECT kind FROM item_event')).rows);
  expect(events).toEqual([{ kind: 'waiting' }]);
  await app.end();
});
