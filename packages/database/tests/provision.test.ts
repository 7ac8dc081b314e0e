import { randomBytes } from 'node:crypto';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import {
  createEmptyDatabase,
  createTestDatabase,
  type TestDatabase,
} from '../../../tests/support/database.ts';
import { provision } from '../src/provision.ts';
import { roles } from '../src/roles.ts';

let database: TestDatabase;
let admin: pg.Client;

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
});

afterAll(async () => {
  await admin.end();
  await database.drop();
});

/** Runs SQL as the application, optionally in a role, and rolls everything back. */
async function asApplication(sql: string, role?: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: database.appUrl });
  await client.connect();
  try {
    await client.query('begin');
    if (role) await client.query(`select set_config('role', $1, true)`, [role]);
    return (await client.query(sql)).rows;
  } finally {
    await client.query('rollback');
    await client.end();
  }
}

describe('a provisioned database', () => {
  it('gives the application no right by itself', async () => {
    for (const table of ['public.person', 'identity.session', 'graphile_worker.jobs']) {
      await expect(asApplication(`select * from ${table}`)).rejects.toThrow(/permission denied/);
    }
  });

  it('gives each role its own corner and no other', async () => {
    await expect(asApplication('select * from identity.account', roles.identity)).resolves.toEqual(
      [],
    );
    await expect(asApplication('select * from public.person', roles.shop)).resolves.toEqual([]);
    for (const [role, table] of [
      [roles.identity, 'public.person'],
      [roles.identity, 'graphile_worker.jobs'],
      [roles.jobs, 'public.person'],
      [roles.jobs, 'identity.session'],
      [roles.shop, 'identity.session'],
      [roles.shop, 'identity.membership'],
      [roles.link, 'identity.account'],
      [roles.link, 'graphile_worker.jobs'],
    ] as const) {
      await expect(asApplication(`select * from ${table}`, role)).rejects.toThrow(
        /permission denied/,
      );
    }
  });

  it('lets no role create anything in the schemas it works in', async () => {
    for (const role of [roles.shop, roles.link, roles.identity]) {
      for (const schema of ['public', 'identity', 'jobs', 'graphile_worker']) {
        await expect(
          asApplication(`create table ${schema}.sneaked (id integer)`, role),
        ).rejects.toThrow(/permission denied/);
      }
    }
    await expect(asApplication('create schema sneaked', roles.jobs)).rejects.toThrow(
      /permission denied/,
    );
  });

  it('has no table of the shop that a role of the application owns or sees past', async () => {
    const { rows } = await admin.query(
      `select c.relname, c.relowner::regrole::text as owner from pg_class c
        where c.relnamespace in ('public'::regnamespace, 'identity'::regnamespace) and c.relkind = 'r'
          and (select bool_or(pg_has_role(r, c.relowner, 'MEMBER')) from unnest($1::text[]) r)`,
      [[...Object.values(roles), 'fairlead_app']],
    );
    expect(rows).toEqual([]);
    const { rows: strong } = await admin.query(
      `select rolname from pg_roles where rolname = any($1) and (rolsuper or rolbypassrls or rolcreaterole)`,
      [[...Object.values(roles), 'fairlead_app']],
    );
    expect(strong).toEqual([]);
  });

  it("has no function with its owner's rights that everybody may call, or whose names can be redirected", async () => {
    const { rows } = await admin.query(
      `select p.oid::regprocedure::text as name
         from pg_proc p join pg_namespace n on n.oid = p.pronamespace
        where p.prosecdef and n.nspname in ('public', 'identity', 'jobs', 'graphile_worker')
          -- A trigger's function cannot be called, only fired.
          and ((p.prorettype <> 'trigger'::regtype and has_function_privilege('pg_monitor', p.oid, 'EXECUTE'))
            or not exists (select from unnest(p.proconfig) s where s like 'search_path=%'))`,
    );
    expect(rows).toEqual([]);
  });

  it('is the same after a second provisioning, and after two at once', async () => {
    const { migratorUrl, appUrl } = database;
    expect(await provision({ migratorUrl, appUrl })).toEqual([]);
    expect(
      await Promise.all([provision({ migratorUrl, appUrl }), provision({ migratorUrl, appUrl })]),
    ).toEqual([[], []]);
    const { rows } = await admin.query(
      `select has_database_privilege('fairlead_jobs', current_database(), 'CREATE') as may`,
    );
    expect(rows).toEqual([{ may: false }]);
  });

  it('can be made twice at the same moment on one server', async () => {
    const fresh = await Promise.all([createEmptyDatabase(), createEmptyDatabase()]);
    try {
      const applied = await Promise.all(fresh.map((each) => provision(each)));
      expect(applied[0]).toContain('20261125000000_roles');
      expect(applied[1]).toEqual(applied[0]);
    } finally {
      await Promise.all(fresh.map((each) => each.drop()));
    }
  });
});

describe('provisioning refuses an account that', () => {
  let account = '';

  const withAccount = async (rights: string): Promise<string> => {
    account = `t_${randomBytes(6).toString('hex')}`;
    await admin.query(`create role ${account} login password 'rope' ${rights}`);
    const url = new URL(database.appUrl);
    url.username = account;
    url.password = 'rope';
    return url.href;
  };

  afterEach(async () => {
    if (account === '') return;
    await admin.query(`drop owned by ${account} cascade; drop role ${account}`);
    account = '';
  });

  const attempt = (appUrl: string) => provision({ migratorUrl: database.migratorUrl, appUrl });

  it('does not exist', async () => {
    const url = new URL(database.appUrl);
    url.username = 'nobody_of_that_name';
    await expect(attempt(url.href)).rejects.toThrow(/There is no account nobody_of_that_name/);
  });

  it('is a superuser', async () => {
    await expect(attempt(await withAccount('superuser'))).rejects.toThrow(/it is a superuser/);
  });

  it('bypasses row-level security', async () => {
    await expect(attempt(await withAccount('bypassrls'))).rejects.toThrow(/it has BYPASSRLS/);
  });

  it('migrates', async () => {
    await expect(attempt(database.migratorUrl)).rejects.toThrow(/it is the one that migrates/);
  });

  it('is a member of the owner', async () => {
    const url = await withAccount('noinherit');
    await admin.query(`grant fairlead_owner to ${account}`);
    await expect(attempt(url)).rejects.toThrow(/or is a member of the role that does/);
  });

  it('has a wrong password', async () => {
    const url = new URL(await withAccount('noinherit'));
    url.password = 'wrong';
    // The fast test server asks for no password, and then a wrong one is right.
    if (inject('testServer').kind === 'container') {
      await expect(attempt(url.href)).rejects.toThrow(/cannot use the database as/);
    } else {
      await expect(attempt(url.href)).resolves.toEqual([]);
    }
  });

  it('would inherit every role at once: refused before 16, made harmless from 16 on', async () => {
    const url = await withAccount('inherit');
    const { rows } = await admin.query(`select current_setting('server_version_num')::int as v`);
    if (rows[0].v < 160_000) {
      await expect(attempt(url)).rejects.toThrow(/NOINHERIT/);
      return;
    }
    await attempt(url);
    const client = new pg.Client({ connectionString: url });
    await client.connect();
    await expect(client.query('select * from identity.session')).rejects.toThrow(
      /permission denied/,
    );
    await client.end();
  });
});

it('provisioning refuses a migrator that does not own the database', async () => {
  const url = new URL(database.migratorUrl);
  url.pathname = '/postgres';
  await expect(provision({ migratorUrl: url.href, appUrl: database.appUrl })).rejects.toThrow(
    /Cannot migrate the database postgres as fairlead_owner: that account does not own it/,
  );
});
