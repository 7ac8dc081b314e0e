import { createClient } from '@fairlead/database';
import { createWorker, sealAudit } from '@fairlead/database/jobs';
import pino from 'pino';
import { readEnv } from './env.ts';
import { jobTasks } from './jobs.ts';
import { sweepUploads } from './work/upload-files.ts';

const SEAL_EVERY_MS = 2000;
const SWEEP_EVERY_MS = 3_600_000;

const env = readEnv(process.env);
const log = pino({ level: process.env.LOG_LEVEL ?? 'info' });
const client = createClient({ url: env.DATABASE_URL, poolSize: 5 });
const worker = await createWorker({
  appUrl: env.DATABASE_URL,
  tasks: jobTasks(client),
  log: (level, message) => {
    if (level === 'error' || level === 'warning') log.warn({ queue: level }, message);
  },
});

// Audit rows are sealed into each shop's chain within five seconds: one round every two, whatever happens to it.
let sealing: Promise<unknown> = Promise.resolve();
const timer = setInterval(() => {
  sealing = sealing
    .then(() => sealAudit(worker.pool))
    .catch((error: unknown) =>
      log.warn({ err: error }, 'sealing the audit failed; the next round tries again'),
    );
}, SEAL_EVERY_MS);

const sweep = () =>
  void sweepUploads(env.UPLOADS_DIR, new Date()).catch((error: unknown) =>
    log.warn({ err: error }, 'sweeping unfinished uploads failed; the next round tries again'),
  );
const sweeping = setInterval(sweep, SWEEP_EVERY_MS);
sweep();
log.info('the worker runs');

const stop = () => {
  clearInterval(timer);
  clearInterval(sweeping);
  void sealing
    .then(() => worker.stop())
    .then(() => client.$disconnect())
    .then(() => process.exit(0));
};
process.on('SIGINT', stop);
process.on('SIGTERM', stop);
