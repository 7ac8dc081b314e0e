import type pg from 'pg';

/** Mails that are handed over side by side: a slow mail server leaves the worker hands for its other jobs. */
const LANES = 2;
let busy = 0;

export type Locked<T> = { kind: 'done'; result: T } | { kind: 'busy' } | { kind: 'elsewhere' };

/**
 * Does something with a mail while nobody else does, in whichever process. The lock is the connection's: when a process is killed,
 * it is gone at once, where the queue would hold its job for hours. No transaction is open meanwhile.
 */
export async function withMail<T>(
  pool: pg.Pool,
  mailId: string,
  work: () => Promise<T>,
): Promise<Locked<T>> {
  if (busy >= LANES) return { kind: 'busy' };
  busy += 1;
  try {
    const connection = await pool.connect();
    let broken = true;
    try {
      const { rows } = await connection.query<{ held: boolean }>(
        `select pg_try_advisory_lock(hashtextextended('mail:' || $1, 0)) as held`,
        [mailId],
      );
      if (!rows[0]?.held) {
        broken = false;
        return { kind: 'elsewhere' };
      }
      try {
        return { kind: 'done', result: await work() };
      } finally {
        await connection.query(`select pg_advisory_unlock(hashtextextended('mail:' || $1, 0))`, [
          mailId,
        ]);
        broken = false;
      }
    } finally {
      // A connection that could not give its lock back is closed, and with it the lock.
      connection.release(broken);
    }
  } finally {
    busy -= 1;
  }
}
