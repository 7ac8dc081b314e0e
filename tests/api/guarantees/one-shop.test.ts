import type pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { asShop, rawConnection, stateOf } from './raw.ts';
import { makeOrder, uuid } from './rows.ts';

let api: TestApi;
let ours: TestShop;
let theirs: TestShop;
let app: pg.Client;
let owner: pg.Client;
let tables: string[];

beforeAll(async () => {
  api = await startApi();
  [ours, theirs] = [await makeShop(api), await makeShop(api)];
  app = await rawConnection(api.database.appUrl);
  owner = await rawConnection(api.database.migratorUrl);
  const found =
    await owner.query(`SELECT c.relname FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r'
    AND c.relname <> '_prisma_migrations' ORDER BY 1`);
  tables = found.rows.map(({ relname }: { relname: string }) => relname);
});
afterAll(async () => {
  await app.end();
  await owner.end();
  await api.stop();
});

describe('every table of a shop', () => {
  it('has its shop, its key, UNIQUE (shop_id, id) and row-level security with a policy', async () => {
    expect(tables.length).toBeGreaterThan(50);
    const { rows } = await owner.query(`SELECT c.relname, c.relrowsecurity,
        EXISTS (SELECT FROM pg_policy p WHERE p.polrelid = c.oid AND p.polname = 'one_shop') AS policy,
        EXISTS (SELECT FROM pg_index i WHERE i.indrelid = c.oid AND i.indisunique AND (SELECT array_agg(a.attname::text ORDER BY k.n) FROM unnest(i.indkey) WITH ORDINALITY k(attnum, n)
          JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = k.attnum) = ARRAY['shop_id', 'id']) AS pair
      FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' AND c.relname <> '_prisma_migrations'`);
    for (const row of rows) {
      expect(row, row.relname).toMatchObject({ relrowsecurity: true, policy: true });
      if (row.relname !== 'shop') expect(row, row.relname).toMatchObject({ pair: true });
    }
  });

  it('points only within its shop: every foreign key leads with shop_id, and so does every index but the key', async () => {
    const keys =
      await owner.query(`SELECT conrelid::regclass::text AS from_table, confrelid::regclass::text AS to_table,
        (SELECT array_agg(a.attname::text ORDER BY k.n) FROM unnest(conkey) WITH ORDINALITY k(attnum, n) JOIN pg_attribute a ON a.attrelid = conrelid AND a.attnum = k.attnum) AS columns
      FROM pg_constraint WHERE contype = 'f' AND connamespace = 'public'::regnamespace`);
    expect(keys.rows.length).toBeGreaterThan(70);
    for (const { from_table, columns } of keys.rows)
      expect(columns[0], `${from_table} ${columns}`).toBe('shop_id');
    const indexes =
      await owner.query(`SELECT c.relname, pg_get_indexdef(i.indexrelid) AS definition FROM pg_index i JOIN pg_class c ON c.oid = i.indrelid
      WHERE c.relnamespace = 'public'::regnamespace AND NOT i.indisprimary AND c.relname NOT IN ('_prisma_migrations', 'shop')`);
    for (const { relname, definition } of indexes.rows)
      if (!definition.includes('secret_hash')) expect(definition, relname).toMatch(/\(shop_id/);
  });

  it('shows nothing to the bare login, and nothing to a transaction that named no shop', async () => {
    for (const table of tables)
      expect(await stateOf(app.query(`SELECT * FROM public.${table}`)), table).toBe('42501');
    await app.query('BEGIN');
    await app.query("SELECT set_config('role', 'fairlead_shop', true)");
    for (const table of tables) {
      const { rows } = await app.query(`SELECT count(*)::int AS n FROM ${table}`);
      expect(rows[0].n, table).toBe(0);
    }
    await app.query('ROLLBACK');
  });

  it('hides every row of another shop from every table', async () => {
    await makeOrder(theirs);
    await asShop(app, ours.shopId, async () => {
      for (const table of tables) {
        const column = table === 'shop' ? 'id' : 'shop_id';
        const { rows } = await app.query(
          `SELECT count(*)::int AS n FROM ${table} WHERE ${column} <> $1`,
          [ours.shopId],
        );
        expect(rows[0].n, table).toBe(0);
      }
    });
  });

  it('takes no row for another shop, and none that points into one', async () => {
    const insert = 'INSERT INTO contact (shop_id, name) VALUES ($1, $2)';
    expect(
      await asShop(app, ours.shopId, () => stateOf(app.query(insert, [theirs.shopId, 'Smuggled']))),
    ).toBe('42501');
    const pointing =
      'INSERT INTO aircraft (shop_id, model_id, registration, serial) VALUES ($1, $2, $3, $4)';
    expect(
      await asShop(app, ours.shopId, () =>
        stateOf(app.query(pointing, [ours.shopId, theirs.modelId, 'QQ-0', '1'])),
      ),
    ).toBe('23503');
    expect(
      await asShop(app, ours.shopId, () =>
        stateOf(app.query(pointing, [ours.shopId, ours.modelId, 'QQ-0', '1'])),
      ),
    ).toBe('none');
    expect(
      await asShop(app, ours.shopId, () =>
        stateOf(app.query('UPDATE aircraft SET shop_id = $1', [theirs.shopId])),
      ),
    ).toBe('42501');
  });
});

describe('the application', () => {
  it('is neither owner nor superuser, and cannot become either or look past the policies', async () => {
    const { rows } =
      await app.query(`SELECT rolname, rolsuper, rolbypassrls, rolcreaterole FROM pg_roles
      WHERE rolname = session_user OR rolname LIKE 'fairlead_%' AND rolname <> 'fairlead_owner'`);
    expect(rows.length).toBeGreaterThanOrEqual(5);
    for (const role of rows)
      expect(role).toMatchObject({ rolsuper: false, rolbypassrls: false, rolcreaterole: false });
    expect(await stateOf(app.query('SET ROLE fairlead_owner'))).toBe('42501');
    expect(
      await asShop(app, ours.shopId, () =>
        stateOf(app.query('ALTER TABLE decision DISABLE TRIGGER ALL')),
      ),
    ).toBe('42501');
    expect(
      await asShop(app, ours.shopId, () => stateOf(app.query('DROP POLICY one_shop ON decision'))),
    ).toBe('42501');
    expect(
      await asShop(app, ours.shopId, () =>
        stateOf(app.query('SET LOCAL session_replication_role = replica')),
      ),
    ).toBe('42501');
    const owned = await owner.query(
      "SELECT count(*)::int AS n FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relowner = 'fairlead_shop'::regrole",
    );
    expect(owned.rows[0].n).toBe(0);
  });

  it('cannot call what only triggers and the worker call', async () => {
    for (const call of [
      `chain_append('${ours.shopId}', 'decision', NULL, '{}')`,
      'seal_audit()',
      `evidence_of('decision', '${uuid()}')`,
      "keep_audit_of('contact')",
      "resolve_link('\\x00')",
    ])
      expect(await asShop(app, ours.shopId, () => stateOf(app.query(`SELECT ${call}`))), call).toBe(
        '42501',
      );
  });
});
