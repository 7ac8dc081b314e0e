import { randomBytes } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { createApp, listen } from '@fairlead/api/app';
import { type Client, createClient } from '@fairlead/database';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import type pg from 'pg';
import pino from 'pino';
import { createTestDatabase, type TestDatabase } from './database.ts';

/** The API as it runs, over HTTP, on a database of its own. */
export interface TestApi {
  origin: string;
  database: TestDatabase;
  uploadsDir: string;
  app: Awaited<ReturnType<typeof createApp>>;
  /** What signs the cookies, for a second API that is to know them. */
  secret: string;
  /** The database as the application, for what a test writes itself: its statements are not counted. */
  client: Client;
  /** The database as sign-in. */
  identity: pg.Pool;
  /** Statements sent while `work` ran. */
  statementsOf(work: () => Promise<unknown>): Promise<string[]>;
  /** Unexpected errors that the API logged; a test that expects none checks that it is empty. */
  faults: string[];
  stop(): Promise<void>;
}

export interface Answer<T = Record<string, unknown>> {
  status: number;
  data: T | null;
  errors?: { message: string; extensions: { code: string } }[];
}

/** Starts the API on a free port over a fresh copy of the migrated template. */
export async function startApi({ now }: { now?: () => Date } = {}): Promise<TestApi> {
  const database = await createTestDatabase();
  const uploadsDir = await mkdtemp(path.join(os.tmpdir(), 'fairlead-uploads-'));
  const statements: string[] = [];
  const faults: string[] = [];
  const secret = randomBytes(32).toString('hex');
  const app = await createApp({
    DATABASE_URL: database.appUrl,
    WEB_ORIGIN: 'http://shop.test',
    UPLOADS_DIR: uploadsDir,
    SIGN_IN_SECRET: secret,
    onQuery: (sql) => statements.push(sql),
    log: pino({ level: 'error' }, { write: (line: string) => void faults.push(line) }),
    ...(now && { now }),
  });
  const server = await listen(app.app, 0);
  const client = createClient({ url: database.appUrl, poolSize: 8 });
  const identity = rolePool({ url: database.appUrl, role: roles.identity, max: 2 });
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    origin,
    database,
    uploadsDir,
    app,
    faults,
    secret,
    client,
    identity,
    async statementsOf(work) {
      statements.length = 0;
      await work();
      return [...statements];
    },
    async stop() {
      await new Promise((resolve) => {
        server.close(resolve);
        server.closeAllConnections();
      });
      await app.close();
      await client.$disconnect();
      await identity.end();
      await database.drop();
      await rm(uploadsDir, { recursive: true, force: true });
    },
  };
}

/** One GraphQL request, as the dashboard sends it. `T` is what the test expects to read. */
export async function ask<T = Record<string, unknown>>(
  origin: string,
  query: string,
  variables: Record<string, unknown> = {},
  cookie = '',
): Promise<Answer<T>> {
  const response = await fetch(`${origin}/graphql`, {
    method: 'POST',
    headers: {
      'content-type': 'application/json',
      'apollo-require-preflight': '1',
      ...(cookie && { cookie }),
    },
    body: JSON.stringify({ query, variables }),
  });
  const body = (await response.json()) as Omit<Answer<T>, 'status'>;
  return { ...body, status: response.status };
}
