import { createClient } from '@fairlead/database';
import { createWorker, sealAudit } from '@fairlead/database/jobs';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import pino from 'pino';
import { readEnv } from './env.ts';
import { askMissingFits } from './hindsight/refit-hours.ts';
import { jobTasks } from './jobs.ts';
import { sweepSignIn } from './people/sweep-sign-in.ts';
import { sweepArchives } from './records/archive/archive-files.ts';
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

await askMissingFits(client, worker.pool).catch((error: unknown) =>
  log.warn(
    { err: error },
    'asking for missing fits of hours failed; the next item that closes asks again',
  ),
);

// Audit rows are sealed into each shop's chain within five seconds: one round every two, whatever happens to it.
let sealing: Promise<unknown> = Promise.resolve();
const timer = setInterval(() => {
  sealing = sealing
    .then(() => sealAudit(worker.pool))
    .catch((error: unknown) =>
      log.warn({ err: error }, 'sealing the audit failed; the next round tries again'),
    );
}, SEAL_EVERY_MS);

// What is over opens nothing already; sweeping keeps tables and folders short. At the start and every hour.
const identity = rolePool({
  url: env.DATABASE_URL,
  role: roles.identity,
  max: 1,
  onError: (error) => log.warn({ err: error }, 'the connection for sweeping broke'),
});
let sweeping: Promise<unknown> = Promise.resolve();
const sweep = () => {
  sweeping = sweeping
    .then(() => sweepSignIn(identity))
    .then((swept) => log.info({ swept }, 'sessions and invitations that were over are removed'))
    .then(() => sweepUploads(env.UPLOADS_DIR, new Date()))
    .then(() => sweepArchives(env.UPLOADS_DIR, new Date()))
    .catch((error: unknown) =>
      log.warn({ err: error }, 'sweeping what is over failed; the next round tries again'),
    );
};
sweep();
const sweeper = setInterval(sweep, SWEEP_EVERY_MS);
log.info('the worker runs');

const stop = () => {
  clearInterval(timer);
  clearInterval(sweeper);
  void Promise.all([sealing, sweeping])
    .then(() => worker.stop())
    .then(() => Promise.all([client.$disconnect(), identity.end()]))
    .then(() => process.exit(0));
};
process.on('SIGINT', stop);
process.on('SIGTERM', stop);
