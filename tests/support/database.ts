import { randomBytes } from 'node:crypto';
import { prepareEmbedded } from '@fairlead/database/provision';
import pg from 'pg';
import { inject } from 'vitest';

import type {} from './database-setup.ts';

/** A database of a test's own, migrated and empty. */
export type TestDatabase = {
  /** As superuser: sees and may do everything. */
  adminUrl: string;
  /** As the account that owns and migrates. */
  migratorUrl: string;
  /** As the application. */
  appUrl: string;
  drop(): Promise<void>;
};

async function asAdmin(adminUrl: string, sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    await client.query(sql);
  } finally {
    await client.end();
  }
}

async function make(source: string | null): Promise<TestDatabase> {
  const server = inject('testServer');
  const name = `t_${randomBytes(8).toString('hex')}`;
  await asAdmin(
    server.adminUrl,
    `create database ${name} owner fairlead_owner template ${source ?? 'template0'}`,
  );
  const adminUrl = new URL(server.adminUrl);
  adminUrl.pathname = `/${name}`;
  const urls = await prepareEmbedded(server.adminUrl, name);
  return {
    adminUrl: adminUrl.href,
    ...urls,
    drop: () => asAdmin(server.adminUrl, `drop database if exists ${name} with (force)`),
  };
}

/** A copy of the migrated template. Needs the global set-up of database-setup.ts. */
export function createTestDatabase(): Promise<TestDatabase> {
  return make(inject('testServer').template);
}

/** A database without a single table, for tests of the migrations themselves. */
export function createEmptyDatabase(): Promise<TestDatabase> {
  return make(null);
}
