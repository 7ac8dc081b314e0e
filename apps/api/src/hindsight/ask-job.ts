import type { Tx } from '@fairlead/database';
import { enqueue } from '@fairlead/database/jobs';

/** What the worker does with the file on the desk. */
export type HistoryJob = 'read_history' | 'take_in_history';

/** Tried so often, with pauses of 3 and 7 seconds, before the file on the desk says that it failed. */
export const MOST_ATTEMPTS = 3;

/** Asks the worker for a job on the file on the desk, within the transaction that put it there. */
export async function askJob(
  tx: Tx,
  task: HistoryJob,
  payload: { uploadId: string; personId: string },
): Promise<void> {
  const runsSql = {
    query: async (sql: string, values: unknown[]) => ({
      rows: await tx.$queryRawUnsafe<Record<string, unknown>[]>(sql, ...values),
    }),
  };
  await enqueue(runsSql, { task, payload, key: payload.uploadId, maxAttempts: MOST_ATTEMPTS });
}
