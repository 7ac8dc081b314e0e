import { PrismaPg } from '@prisma/adapter-pg';
import pg from 'pg';
import { PrismaClient } from './generated/prisma/client.ts';
import { inTurn } from './in-turn.ts';

export interface ClientOptions {
  /** postgresql:// URL of the application's login. */
  url: string;
  /** Connections at most; every request under way may hold one. */
  poolSize?: number;
  /** Called with each statement that is sent, for counting. */
  onQuery?: (sql: string) => void;
}

/**
 * The Prisma client over node-postgres. Its login has no rights of its own: nothing can be read or
 * written before a transaction has chosen a role, so use it through `inShop` and `lazyReader`.
 */
export function createClient({ url, poolSize = 12, onQuery }: ClientOptions) {
  const pool = new pg.Pool({
    connectionString: url,
    max: poolSize,
    connectionTimeoutMillis: 4000,
    idleTimeoutMillis: 30_000,
  });
  // Without a listener of its own, a connection that the database ends while it is given back would end the whole
  // program; what was asked over it fails by itself.
  pool.on('connect', (connection) => connection.on('error', () => undefined));
  const client = new PrismaClient({
    adapter: inTurn(new PrismaPg(pool, { disposeExternalPool: true })),
    log: [{ emit: 'event', level: 'query' }],
  });
  if (onQuery) client.$on('query', (event) => onQuery(event.query));
  return client;
}

export type Client = ReturnType<typeof createClient>;
/** A transaction's client: what every query takes first. */
export type Tx = Parameters<Parameters<Client['$transaction']>[0]>[0];
