/** The demo shop is loaded whole or not at all, and once. */
import { readFile } from 'node:fs/promises';
import { loadDemo } from '@fairlead/api/demo/load-demo';
import { importHistory } from '@fairlead/api/hindsight/import-history';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ask } from '../../support/api.ts';
import { createTestDatabase } from '../../support/database.ts';
import { NOW, startDemo } from './demo-shop.ts';

let demo: Awaited<ReturnType<typeof startDemo>>;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(() => demo.stop());

async function asAdmin<Row>(url: string, sql: string): Promise<Row[]> {
  const admin = new pg.Client({ connectionString: url });
  await admin.connect();
  const { rows } = await admin.query(sql).finally(() => admin.end());
  return rows as Row[];
}

/** Rows of every table, the audit's and the chain's among them. */
const rowsOf = (url: string) =>
  asAdmin<{ name: string; rows: string }>(
    url,
    `SELECT c.relname AS name,
    (xpath('/row/n/text()', query_to_xml(format('SELECT count(*) AS n FROM %s', c.oid::regclass), false, true, '')))[1]::text AS rows
    FROM pg_class c WHERE c.relkind = 'r' AND c.relnamespace IN ('public'::regnamespace, 'identity'::regnamespace) ORDER BY 1`,
  );

describe('loading', () => {
  test('a second time adds nothing and gives the same sign-ins', async () => {
    expect(demo.first.loaded).toBe(true);
    const before = await rowsOf(demo.api.database.adminUrl);
    const again = await demo.load(new Date('2028-01-01T00:00:00Z'));
    expect(again).toEqual({ loaded: false, signIns: demo.first.signIns });
    expect(await rowsOf(demo.api.database.adminUrl)).toEqual(before);
  });

  test('its history, imported once more by hand, is known row by row', async () => {
    const bytes = await readFile(new URL('../../../prisma/demo/history.csv', import.meta.url));
    const done = await importHistory(demo.inside, {
      file: { name: 'history.csv', bytes },
      today: '2027-03-02',
      skipBad: false,
    });
    expect([done.added, done.already]).toEqual([0, 300]);
  });

  test('everybody can sign in with what is printed', async () => {
    expect(demo.first.signIns).toHaveLength(6);
    for (const { email, password, name } of demo.first.signIns) {
      const response = await fetch(`${demo.api.origin}/auth/sign-in/email`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', origin: 'http://shop.test' },
        body: JSON.stringify({ email, password }),
      });
      expect(response.status).toBe(200);
      const cookie = response.headers
        .getSetCookie()
        .map((one) => one.split(';')[0])
        .join('; ');
      const answer = await ask<{ viewer: { person: { name: string } } }>(
        demo.api.origin,
        '{ viewer { person { name } } }',
        {},
        cookie,
      );
      expect(answer.data?.viewer.person.name).toBe(name);
    }
  });

  test('cut off half-way it leaves nothing, and the next start loads it; accounts that are missing are made', async () => {
    const database = await createTestDatabase();
    const shops = () =>
      asAdmin<{ shops: string }>(database.adminUrl, 'SELECT count(*) AS shops FROM public.shop');
    const options = { appUrl: database.appUrl, uploadsDir: demo.api.uploadsDir, now: NOW };
    const cut = loadDemo(options).then(
      () => 'loaded',
      () => 'cut off',
    );
    // As soon as its transaction has written a quote, its connections are ended from outside.
    const ended = async () =>
      (
        await asAdmin<{ ended: boolean }>(
          database.adminUrl,
          `SELECT pg_terminate_backend(pid) AS ended FROM pg_stat_activity
        WHERE datname = current_database() AND usename = 'fairlead_app' AND backend_xid IS NOT NULL AND query ILIKE '%quote%'`,
        )
      ).length > 0;
    for (let tries = 0; tries < 2000 && !(await ended()); tries += 1)
      await new Promise((resolve) => setTimeout(resolve, 2));
    expect(await cut).toBe('cut off');
    expect((await shops())[0]?.shops).toBe('0');

    const [one, other] = await Promise.all([loadDemo(options), loadDemo(options)]);
    expect([one.loaded, other.loaded].sort()).toEqual([false, true]);
    expect((await shops())[0]?.shops).toBe('1');

    await asAdmin(database.adminUrl, `DELETE FROM identity.account WHERE email LIKE 'marta%'`);
    expect((await loadDemo(options)).loaded).toBe(false);
    expect(await asAdmin(database.adminUrl, 'SELECT email FROM identity.account')).toHaveLength(6);
    await database.drop();
  });
});
