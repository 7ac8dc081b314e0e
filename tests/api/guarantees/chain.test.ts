import { linkRecords } from '@fairlead/api/record-chain';
import { shopKey } from '@fairlead/api/shop-key';
import type pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { asShop, rawConnection } from './raw.ts';
import { decide, draftInvoice, makeOrder } from './rows.ts';

let api: TestApi;
let app: pg.Client;
let admin: pg.Client;
beforeAll(async () => {
  api = await startApi();
  app = await rawConnection(api.database.appUrl);
  admin = await rawConnection(api.database.adminUrl);
});
afterAll(async () => {
  await app.end();
  await admin.end();
  await api.stop();
});

const faults = (shop: TestShop) =>
  asShop(
    app,
    shop.shopId,
    async () =>
      (await app.query('SELECT seq, fault FROM chain_faults()')).rows as {
        seq: number;
        fault: string;
      }[],
  );
const seal = async () => {
  await app.query('BEGIN');
  await app.query("SELECT set_config('role', 'fairlead_jobs', true)");
  const { rows } = await app.query('SELECT seal_audit() AS sealed');
  await app.query('COMMIT');
  return rows[0].sealed as number;
};
/** What somebody with the keys of the server could do: rewrite with every trigger off. */
const tamper = async (sql: string, values: unknown[] = []) => {
  await admin.query('BEGIN');
  await admin.query('SET LOCAL session_replication_role = replica');
  const { rowCount } = await admin.query(sql, values);
  await admin.query('COMMIT');
  expect(rowCount, sql).toBeGreaterThan(0);
};

/** A shop with an entry, a decision, an issued invoice and sealed audit rows in its chain. */
async function chained() {
  const shop = await makeShop(api);
  const made = await makeOrder(shop);
  await decide(shop, made.revisionId);
  await shop.inside(async (tx) => {
    const entry = await tx.recordEntry.create({
      data: {
        orderId: made.orderId,
        bookId: shop.bookId,
        rule: 'maintenance',
        text: 'Test entry',
        completedOn: new Date('2031-05-05'),
        tisHundredths: 123_450,
        outcome: 'airworthy',
        signedById: shop.people.inspector.id,
        signature: 'Test inspector',
        certificateKind: 'mechanic_airframe',
        certificateNumber: 'T-1001',
      },
    });
    await tx.entryItem.create({ data: { entryId: entry.id, itemId: made.itemId } });
    await linkRecords(tx, await shopKey(api.uploadsDir, shop.shopId), shop.aircraftId, new Date());
  });
  const invoice = await draftInvoice(shop, made.orderId);
  await shop.inside((tx) =>
    tx.invoice.update({ where: { id: invoice }, data: { issuedAt: new Date() } }),
  );
  await seal();
  return { shop, ...made };
}

it('links decisions, entries and invoices at their commit, and seals the audit rows', async () => {
  const { shop } = await chained();
  const { rows } = await admin.query(
    'SELECT seq, kind FROM chain_link WHERE shop_id = $1 ORDER BY seq',
    [shop.shopId],
  );
  expect(rows.map(({ kind }) => kind)).toEqual(['decision', 'entry', 'invoice', 'audit']);
  expect(await faults(shop)).toEqual([]);
  const unsealed = await admin.query(
    'SELECT count(*)::int AS n FROM audit a JOIN chain_head h USING (shop_id) WHERE a.shop_id = $1 AND a.txid >= h.sealed_below',
    [shop.shopId],
  );
  expect(unsealed.rows[0].n).toBe(0);
});

it.each([
  ['a decision rewritten', 'UPDATE decision SET ceiling_minor = 1 WHERE shop_id = $1', 'decision'],
  [
    'an entry rewritten',
    "UPDATE record_entry SET text = 'Never happened' WHERE shop_id = $1",
    'entry',
  ],
  ['an item taken out of an entry', 'DELETE FROM entry_item WHERE shop_id = $1', 'entry'],
  [
    'a line of an issued invoice rewritten',
    'UPDATE invoice_line SET net_minor = 1 WHERE shop_id = $1',
    'invoice',
  ],
  [
    'a line of an issued invoice taken out',
    'DELETE FROM invoice_line WHERE shop_id = $1',
    'invoice',
  ],
  ['a decision taken out', 'DELETE FROM decision WHERE shop_id = $1', 'decision'],
  [
    'an audit row rewritten',
    "UPDATE audit SET after = '{}' WHERE shop_id = $1 AND table_name = 'contact'",
    'audit',
  ],
  [
    'an audit row taken out',
    "DELETE FROM audit WHERE shop_id = $1 AND table_name = 'contact'",
    'audit',
  ],
  [
    'a link rewritten',
    "UPDATE chain_link SET payload = '{}' WHERE shop_id = $1 AND seq = 2",
    'content',
  ],
  [
    'a link in the middle taken out',
    'DELETE FROM chain_link WHERE shop_id = $1 AND seq = 2',
    'missing',
  ],
  [
    'the last link taken out',
    'DELETE FROM chain_link WHERE shop_id = $1 AND seq = (SELECT max(seq) FROM chain_link WHERE shop_id = $1)',
    'missing',
  ],
])('finds %s, even when every trigger was off', async (_, sql, word) => {
  const { shop } = await chained();
  await tamper(sql, [shop.shopId]);
  const found = await faults(shop);
  expect(found.length).toBeGreaterThan(0);
  expect(found.map(({ fault }) => fault).join('; ')).toContain(word);
});

it('shows a chain rewritten as a whole by its head, which stands on every printed entry and invoice', async () => {
  const { shop } = await chained();
  const head = async () =>
    (
      await admin.query("SELECT encode(hash, 'hex') AS hash FROM chain_head WHERE shop_id = $1", [
        shop.shopId,
      ])
    ).rows[0].hash as string;
  const printed = await head();
  await tamper('UPDATE decision SET ceiling_minor = 1 WHERE shop_id = $1', [shop.shopId]);
  const links = (
    await admin.query(
      'SELECT seq, kind, subject_id FROM chain_link WHERE shop_id = $1 ORDER BY seq',
      [shop.shopId],
    )
  ).rows;
  await tamper('DELETE FROM chain_link WHERE shop_id = $1', [shop.shopId]);
  await tamper(
    "UPDATE chain_head SET seq = 0, hash = sha256(convert_to(shop_id::text, 'UTF8')) WHERE shop_id = $1",
    [shop.shopId],
  );
  for (const { kind, subject_id } of links)
    if (kind !== 'audit')
      await admin.query('SELECT chain_append($1, $2, $3, evidence_of($2, $3))', [
        shop.shopId,
        kind,
        subject_id,
      ]);
  expect(await faults(shop)).toEqual([]);
  expect(await head()).not.toBe(printed);
});

it('seals nothing that a running transaction could still add to', async () => {
  const shop = await makeShop(api);
  await seal();
  const slow = await rawConnection(api.database.appUrl);
  await slow.query('BEGIN');
  await slow.query(
    "SELECT set_config('role', 'fairlead_shop', true), set_config('app.shop_id', $1, true)",
    [shop.shopId],
  );
  await slow.query("INSERT INTO contact (shop_id, name) VALUES ($1, 'Slow')", [shop.shopId]);
  await shop.inside((tx) => tx.contact.create({ data: { shopId: shop.shopId, name: 'Quick' } }));
  await seal();
  const unsealed = () =>
    admin.query(
      "SELECT a.after ->> 'name' AS name FROM audit a JOIN chain_head h USING (shop_id) WHERE a.shop_id = $1 AND a.txid >= h.sealed_below ORDER BY a.txid",
      [shop.shopId],
    );
  expect((await unsealed()).rows.map(({ name }) => name)).toEqual(['Quick']);
  await slow.query('COMMIT');
  await slow.end();
  expect(await seal()).toBeGreaterThanOrEqual(2);
  expect((await unsealed()).rows).toEqual([]);
  expect(await faults(shop)).toEqual([]);
});

it('never makes the shop wait: an ordinary change does not touch the chain', async () => {
  const { shop } = await chained();
  await admin.query('BEGIN');
  await admin.query('SELECT FROM chain_head WHERE shop_id = $1 FOR UPDATE', [shop.shopId]);
  await shop.inside((tx) =>
    tx.contact.create({ data: { shopId: shop.shopId, name: 'Not waiting' } }),
  );
  expect(await seal()).toBe(0);
  await admin.query('ROLLBACK');
  expect(await seal()).toBe(1);
});

it('keeps links in order when decisions commit at the same moment', async () => {
  const shop = await makeShop(api);
  const orders = await Promise.all(Array.from({ length: 8 }, () => makeOrder(shop)));
  await Promise.all(orders.map(({ revisionId }) => decide(shop, revisionId)));
  expect(await faults(shop)).toEqual([]);
  const { rows } = await admin.query(
    "SELECT count(*)::int AS n FROM chain_link WHERE shop_id = $1 AND kind = 'decision'",
    [shop.shopId],
  );
  expect(rows[0].n).toBe(8);
});

it('writes who did what, from the transaction and not from the caller', async () => {
  const shop = await makeShop(api);
  const { rows } = await admin.query(
    "SELECT person_id, table_name, action, before, after ->> 'name' AS name FROM audit WHERE shop_id = $1 AND table_name = 'contact'",
    [shop.shopId],
  );
  expect(rows).toEqual([
    { person_id: null, table_name: 'contact', action: 'insert', before: null, name: 'Test Owner' },
  ]);
});
