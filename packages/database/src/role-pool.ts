import pg from 'pg';
import type { Role } from './roles.ts';

/** A pool whose connections stay in one role: for sign-in and for the queue, never for the shop. */
export type RolePoolOptions = {
  url: string;
  role: Role;
  max: number;
  /** The schema in which unqualified names are looked up, when it is not the usual one. */
  schema?: string;
  /** A connection that breaks while nobody uses it is reported here; the pool replaces it. */
  onError?: (error: Error) => void;
};

/** Makes the pool. The role is asked for in the connection's start-up message, so no statement runs without it. */
export function rolePool(options: RolePoolOptions): pg.Pool {
  const path = options.schema === undefined ? '' : ` -c search_path=${options.schema}`;
  const pool = new pg.Pool({
    connectionString: options.url,
    options: `-c role=${options.role}${path}`,
    max: options.max,
  });
  const report = options.onError ?? (() => {});
  pool.on('error', report);
  // Without a listener of its own, a connection that breaks while in use would end the whole program.
  pool.on('connect', (client) => client.on('error', report));
  return pool;
}
