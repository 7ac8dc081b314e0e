import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { PrismaPg } from '@prisma/adapter-pg';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createEmptyDatabase, type TestDatabase } from '../../../tests/support/database.ts';
import { mendedFactory } from '../src/adapter-patches.ts';
import { createMigrationSql, deploy, drift, type MigrationFiles } from '../src/migrate.ts';

let database: TestDatabase;
let client: pg.Client;
const folders: string[] = [];

beforeAll(async () => {
  database = await createEmptyDatabase();
  client = new pg.Client({ connectionString: database.migratorUrl });
  await client.connect();
});

afterAll(async () => {
  await client.end();
  await database.drop();
  for (const folder of folders) fs.rmSync(folder, { recursive: true });
});

/** A small project of its own: one schema file split in two, and the migrations given. */
function project(migrations: Record<string, string>): MigrationFiles {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fairlead-migrate-'));
  folders.push(folder);
  const files = {
    schemaDir: path.join(folder, 'schema'),
    migrationsDir: path.join(folder, 'migrations'),
  };
  fs.mkdirSync(files.schemaDir);
  fs.mkdirSync(files.migrationsDir);
  fs.writeFileSync(
    path.join(files.schemaDir, 'a.prisma'),
    'datasource db {\n  provider = "postgresql"\n}\n',
  );
  fs.writeFileSync(
    path.join(files.schemaDir, 'b.prisma'),
    'model Rung {\n  id Int @id\n  height Int\n  @@map("rung")\n}\n',
  );
  fs.writeFileSync(
    path.join(files.migrationsDir, 'migration_lock.toml'),
    'provider = "postgresql"\n',
  );
  for (const [name, sql] of Object.entries(migrations)) {
    fs.mkdirSync(path.join(files.migrationsDir, name));
    fs.writeFileSync(path.join(files.migrationsDir, name, 'migration.sql'), sql);
  }
  return files;
}

const tableExists = async (name: string): Promise<boolean> =>
  (await client.query('select to_regclass($1) is not null as found', [name])).rows[0].found;

const bodyWithSemicolons = `
  CREATE TABLE climbed (step integer);
  CREATE FUNCTION climb() RETURNS integer LANGUAGE plpgsql AS $$
  BEGIN
    INSERT INTO climbed VALUES (1);
    INSERT INTO climbed VALUES (2);
    RETURN 2;
  END
  $$;`;

describe('the first fault of adapter-pg 7.10.0: scripts are cut at every semicolon', () => {
  it('is still there without the remedy; when this fails, the remedy can go', async () => {
    const adapter = await new PrismaPg({ connectionString: database.migratorUrl }).connect();
    try {
      await expect(adapter.executeScript(bodyWithSemicolons)).rejects.toThrow();
      // The pieces ran on their own: the table of the failed script has stayed behind.
      expect(await tableExists('climbed')).toBe(true);
      await client.query('drop table climbed');
    } finally {
      await adapter.dispose();
    }
  });

  it('a function body with semicolons arrives whole', async () => {
    const adapter = await mendedFactory(
      new PrismaPg({ connectionString: database.migratorUrl }),
    ).connect();
    try {
      await adapter.executeScript(bodyWithSemicolons);
      expect((await client.query('select climb() as step')).rows).toEqual([{ step: 2 }]);
      await client.query('drop function climb(); drop table climbed');
    } finally {
      await adapter.dispose();
    }
  });

  it('nothing of a migration stays when its last statement fails', async () => {
    const files = project({
      '20200101000000_half': 'CREATE TABLE half (id integer); SELECT 1 / 0;',
    });
    await expect(deploy(database.migratorUrl, files)).rejects.toThrow(/division by zero/);
    expect(await tableExists('half')).toBe(false);
    await client.query('drop table _prisma_migrations');
  });
});

describe('the second fault of adapter-pg 7.10.0: the internal "char" is unknown', () => {
  const query = { sql: `select 'r'::"char" as kind, 1 as one`, args: [], argTypes: [] };

  it('is still there without the remedy; when this fails, the remedy can go', async () => {
    const adapter = await new PrismaPg({ connectionString: database.migratorUrl }).connect();
    try {
      await expect(adapter.queryRaw(query)).rejects.toMatchObject({
        cause: { kind: 'UnsupportedNativeDataType', type: 'char' },
      });
    } finally {
      await adapter.dispose();
    }
  });

  it('is read as one character, also within a transaction', async () => {
    const adapter = await mendedFactory(
      new PrismaPg({ connectionString: database.migratorUrl }),
    ).connect();
    try {
      const expected = { columnNames: ['kind', 'one'], columnTypes: [6, 0], rows: [['r', 1]] };
      expect(await adapter.queryRaw(query)).toEqual(expected);
      const transaction = await adapter.startTransaction();
      expect(await transaction.queryRaw(query)).toEqual(expected);
      await transaction.executeRaw({ sql: 'ROLLBACK', args: [], argTypes: [] });
      await transaction.rollback();
    } finally {
      await adapter.dispose();
    }
  });

  it('refuses an adapter that is built differently instead of half-mending it', async () => {
    const factory = new PrismaPg({ connectionString: database.migratorUrl });
    const connect = factory.connect.bind(factory);
    factory.connect = async () => Object.assign(await connect(), { performIO: undefined });
    await expect(mendedFactory(factory).connect()).rejects.toThrow(/built differently from 7.10.0/);
  });
});

describe('the migration runner', () => {
  it('applies what is missing, once, and says when migrations and schema agree', async () => {
    const files = project({
      '20200101000000_rung':
        'CREATE TABLE "rung" ("id" INTEGER NOT NULL, "height" INTEGER NOT NULL, CONSTRAINT "rung_pkey" PRIMARY KEY ("id"));',
    });
    expect(await deploy(database.migratorUrl, files)).toEqual(['20200101000000_rung']);
    expect(await deploy(database.migratorUrl, files)).toEqual([]);
    expect(await drift(database.migratorUrl, files)).toBeNull();
    expect(await createMigrationSql(database.migratorUrl, files)).toBe('');
  });

  it('prints the SQL that a schema needs beyond its migrations', async () => {
    const files = project({
      '20200101000000_rung':
        'CREATE TABLE "rung" ("id" INTEGER NOT NULL, CONSTRAINT "rung_pkey" PRIMARY KEY ("id"));',
    });
    expect(await drift(database.migratorUrl, files)).toMatch(
      /ALTER TABLE "rung" ADD COLUMN\s+"height" INTEGER NOT NULL/,
    );
  });

  it('leaves no connection behind, with which the migration lock would stay taken', async () => {
    const { rows } = await client.query(
      `select pid from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()`,
    );
    expect(rows).toEqual([]);
  });

  it('leaves no shadow database behind', async () => {
    const { rows } = await client.query(
      `select datname from pg_database where datname like 'fairlead_shadow_%'`,
    );
    expect(rows).toEqual([]);
  });

  it('the migrations of this repository build exactly its Prisma schema', async () => {
    expect(await drift(database.migratorUrl)).toBeNull();
  });
});
