import { createHash, randomBytes } from 'node:crypto';
import type pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { rawConnection, stateOf } from './raw.ts';
import { decide, draftInvoice, makeOrder } from './rows.ts';

let api: TestApi;
let shop: TestShop;
let other: Awaited<ReturnType<typeof makeOrder>>;
let linked: Awaited<ReturnType<typeof makeOrder>>;
let app: pg.Client;
const secret = randomBytes(32);
const hash = createHash('sha256').update(secret).digest();

beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
  linked = await makeOrder(shop);
  other = await makeOrder(shop);
  await decide(shop, linked.revisionId);
  await decide(shop, other.revisionId);
  await draftInvoice(shop, linked.orderId);
  await shop.inside((tx) =>
    tx.ownerLink.create({
      data: {
        orderId: linked.orderId,
        contactId: shop.contactId,
        secretHash: hash,
        expiresAt: new Date('2099-01-01'),
      },
    }),
  );
  app = await rawConnection(api.database.appUrl);
});
afterAll(async () => {
  await app.end();
  await api.stop();
});

/** Statements as the owner's link, rolled back; `resolved` is what the function answered. */
async function asLink<T>(
  given: Buffer,
  work: (resolved: Record<string, string>[]) => Promise<T>,
): Promise<T> {
  await app.query('BEGIN');
  try {
    await app.query("SELECT set_config('role', 'fairlead_link', true)");
    const { rows } = await app.query('SELECT * FROM resolve_link($1)', [given]);
    return await work(rows);
  } finally {
    await app.query('ROLLBACK');
  }
}

it('resolves from the hash to its shop and order, and sees that order alone', async () => {
  await asLink(hash, async (resolved) => {
    expect(resolved).toMatchObject([
      { shop_id: shop.shopId, order_id: linked.orderId, quote_id: null },
    ]);
    const ids = async (table: string) =>
      (await app.query(`SELECT id FROM ${table}`)).rows.map(({ id }) => id as string);
    expect(await ids('work_order')).toEqual([linked.orderId]);
    expect(await ids('quote')).toEqual([linked.quoteId]);
    expect(await ids('quote_revision')).toEqual([linked.revisionId]);
    expect(await ids('decision')).toHaveLength(1);
    expect((await ids('work_item')).sort()).toEqual([linked.itemId, linked.otherItemId].sort());
    expect(await ids('invoice')).toEqual([]);
    expect(await ids('aircraft')).toEqual([shop.aircraftId]);
  });
});

it('sees nothing before the function has resolved a link, and nothing for a wrong, expired or revoked one', async () => {
  await app.query('BEGIN');
  await app.query("SELECT set_config('role', 'fairlead_link', true)");
  expect((await app.query('SELECT id FROM work_order')).rows).toEqual([]);
  await app.query('ROLLBACK');
  const expired = randomBytes(32);
  const revoked = randomBytes(32);
  await shop.inside((tx) =>
    tx.ownerLink.createMany({
      data: [
        {
          orderId: linked.orderId,
          contactId: shop.contactId,
          secretHash: expired,
          expiresAt: new Date('2020-01-01'),
        },
        {
          orderId: linked.orderId,
          contactId: shop.contactId,
          secretHash: revoked,
          expiresAt: new Date('2099-01-01'),
          revokedAt: new Date(),
        },
      ],
    }),
  );
  for (const wrong of [randomBytes(32), expired, revoked])
    await asLink(wrong, async (resolved) => {
      expect(resolved).toEqual([]);
      expect((await app.query('SELECT id FROM work_order')).rows).toEqual([]);
    });
});

it("writes nothing and reads none of the shop's own tables", async () => {
  for (const sql of [
    "INSERT INTO contact (name) VALUES ('x')",
    'UPDATE work_order SET title = title',
    'DELETE FROM quote',
    'SELECT * FROM person',
    'SELECT * FROM contact',
    'SELECT * FROM audit',
    'SELECT * FROM owner_link',
    'SELECT * FROM lot',
    'SELECT * FROM clock_event',
  ])
    expect(await asLink(hash, () => stateOf(app.query(sql))), sql).toBe('42501');
});

it('keeps only a hash of its secret, of 32 bytes, and reaches one thing', async () => {
  const link = (data: object) =>
    shop.inside((tx) =>
      tx.ownerLink.create({
        data: {
          contactId: shop.contactId,
          secretHash: randomBytes(32),
          expiresAt: new Date('2099-01-01'),
          ...data,
        },
      }),
    );
  await expect(link({ orderId: linked.orderId, secretHash: Buffer.from('short') })).rejects.toThrow(
    /link_hash_sha256/,
  );
  await expect(link({ orderId: linked.orderId, quoteId: other.quoteId })).rejects.toThrow(
    /link_reaches_one_thing/,
  );
  await expect(link({})).rejects.toThrow(/link_reaches_one_thing/);
});
