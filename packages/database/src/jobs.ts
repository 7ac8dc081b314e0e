import { Logger, type Runner, run, type Task } from 'graphile-worker';
import type pg from 'pg';
import { rolePool } from './role-pool.ts';
import { roles } from './roles.ts';

/** Anything that runs SQL within the caller's transaction: a pg client, or a function around Prisma's `$queryRawUnsafe`. */
export type RunsSql = {
  query(sql: string, values: unknown[]): Promise<{ rows: Record<string, unknown>[] }>;
};

/** A job to be done after the present transaction, and only if it commits. */
export type JobRequest = {
  task: string;
  /** Small: ids, not records. The shop's id is added by the database. */
  payload?: Record<string, unknown>;
  /** A second request under the same key replaces the first while that has not begun. */
  key?: string;
  /** The second request leaves the first its time. */
  keepsTime?: boolean;
  /** Jobs of one queue are done one after the other, in order. */
  queue?: string;
  runAt?: Date;
  /** How often it is tried before it is given up; the pauses grow as exp(attempt) seconds. */
  maxAttempts?: number;
};

/**
 * Asks for a job within the caller's transaction: it exists when that commits, and never did when it rolls back. The
 * transaction must have chosen the role fairlead_shop and its shop.
 *
 * @returns the job's number
 * @throws the database's error when the task is unknown or the transaction has no shop
 */
export async function enqueue(transaction: RunsSql, job: JobRequest): Promise<string> {
  const { rows } = await transaction.query(
    `select jobs.enqueue($1::text, $2::jsonb, $3::text, $4::text, $5::timestamptz, $6::integer, $7::text)::text as id`,
    [
      job.task,
      JSON.stringify(job.payload ?? {}),
      job.key ?? null,
      job.queue ?? null,
      job.runAt ?? null,
      job.maxAttempts ?? 25,
      job.keepsTime ? 'preserve_run_at' : 'replace',
    ],
  );
  const id = rows[0]?.id;
  if (typeof id !== 'string') throw new Error(`The queue gave no number for job "${job.task}"`);
  return id;
}

/** Makes jobs known by name, so that they may be asked for. Run as fairlead_jobs. */
export async function registerTasks(pool: pg.Pool, names: readonly string[]): Promise<void> {
  if (names.length === 0) return;
  await pool.query(
    'insert into jobs.known_task (name) select unnest($1::text[]) on conflict do nothing',
    [names],
  );
}

/** Where the queue reports: nowhere by default, or to the function given. */
export function queueLogger(write?: (level: string, message: string) => void): Logger {
  return new Logger(() => (level, message) => write?.(level, message));
}

/** What a job's function gets: the shop it was asked for in, and the rest of its payload. */
export type JobPayload = { shopId: string } & Record<string, unknown>;

/** A job's function. What it throws makes the job be tried again later. */
export type JobTask = (payload: JobPayload, attempt: number) => Promise<void>;

/** How the worker runs. */
export type WorkerOptions = {
  appUrl: string;
  tasks: Record<string, JobTask>;
  concurrency?: number;
  /** How often to look for jobs that no notification announced, in milliseconds. */
  pollInterval?: number;
  log?: (level: string, message: string) => void;
};

/** A running worker. `stop` lets the jobs at hand finish; `pool` works as the queue's owner. */
export type Worker = { pool: pg.Pool; stop(): Promise<void>; ended: Promise<void> };

/**
 * Seals into each shop's chain the audit rows to which no running transaction can still add.
 *
 * @param pool connections in the role fairlead_jobs
 * @returns how many rows were sealed
 */
export async function sealAudit(pool: pg.Pool): Promise<number> {
  const { rows } = await pool.query<{ sealed: number }>('select public.seal_audit() as sealed');
  return rows[0]?.sealed ?? 0;
}

/**
 * Shops that have clocked something and have no fitted model of a version of the program.
 *
 * @param pool connections in the role fairlead_jobs
 */
export async function shopsToFit(pool: pg.Pool, version: string): Promise<string[]> {
  const { rows } = await pool.query<{ id: string }>('select public.shops_to_fit($1) as id', [
    version,
  ]);
  return rows.map(({ id }) => id);
}

function payloadOf(value: unknown): JobPayload {
  if (typeof value === 'object' && value !== null && 'shopId' in value) {
    const { shopId } = value;
    if (typeof shopId === 'string') return { ...value, shopId };
  }
  throw new TypeError('A job came without its shop: it was not asked for through jobs.enqueue');
}

/**
 * Starts the worker. It works as the queue's owner: under any other role the queue looks empty. A task that needs the
 * shop's records opens a transaction of its own, in the shop's role.
 */
export async function createWorker(options: WorkerOptions): Promise<Worker> {
  const pool = rolePool({
    url: options.appUrl,
    role: roles.jobs,
    max: (options.concurrency ?? 2) + 2,
    onError: (error) => options.log?.('warning', error.message),
  });
  let runner: Runner;
  try {
    await registerTasks(pool, Object.keys(options.tasks));
    const taskList: Record<string, Task> = {};
    for (const [name, task] of Object.entries(options.tasks)) {
      taskList[name] = async (payload, helpers) => task(payloadOf(payload), helpers.job.attempts);
    }
    runner = await run({
      pgPool: pool,
      taskList,
      concurrency: options.concurrency ?? 2,
      pollInterval: options.pollInterval ?? 2_000,
      // The program that starts us decides what a signal means.
      noHandleSignals: true,
      logger: queueLogger(options.log),
    });
  } catch (error) {
    await pool.end();
    throw error;
  }
  return {
    pool,
    ended: runner.promise,
    stop: async () => {
      await runner.stop();
      await pool.end();
    },
  };
}
