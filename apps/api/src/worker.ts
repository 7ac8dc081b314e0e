import { createClient } from '@fairlead/database';
import { createWorker, sealAudit } from '@fairlead/database/jobs';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import pino from 'pino';
import { readEnv, smtpOf } from './env.ts';
import { askMissingFits } from './hindsight/refit-hours.ts';
import { jobTasks } from './jobs.ts';
import { sweepSignIn } from './people/sweep-sign-in.ts';
import { askOverdueMails } from './post/ask-overdue.ts';
import { sweepArchives } from './records/archive/archive-files.ts';
import { sweepUploads } from './work/upload-files.ts';

const SEAL_EVERY_MS = 2000;
const SWEEP_EVERY_MS = 3_600_000;
const MAIL_EVERY_MS = 60_000;
/** A mail that is late by this much has lost its job; one that is being sent is held, and asking again does no harm. */
const MAIL_GRACE_S = 60;

const env = readEnv(process.env);
const log = pino({ level: process.env.LOG_LEVEL ?? 'info' });
const client = createClient({ url: env.DATABASE_URL, poolSize: 5 });
const pool = (role: (typeof roles)[keyof typeof roles], max: number, what: string) =>
  rolePool({
    url: env.DATABASE_URL,
    role,
    max,
    onError: (error) => log.warn({ err: error }, `a connection for ${what} broke`),
  });
const mailLocks = pool(roles.jobs, 2, 'holding mails');
const worker = await createWorker({
  appUrl: env.DATABASE_URL,
  // Two hands for mails, two for everything else.
  concurrency: 4,
  tasks: jobTasks(client, {
    uploadsDir: env.UPLOADS_DIR,
    webOrigin: env.WEB_ORIGIN,
    smtp: smtpOf(env),
    locks: mailLocks,
  }),
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

// A worker that was killed leaves its mails to the next, at once.
const askMails = (graceSeconds: number) =>
  askOverdueMails(client, worker.pool, graceSeconds).catch((error: unknown) =>
    log.warn({ err: error }, 'looking for mails that wait failed; the next round tries again'),
  );
let askingMails: Promise<unknown> = askMails(0);
const mailTimer = setInterval(() => {
  askingMails = askingMails.then(() => askMails(MAIL_GRACE_S));
}, MAIL_EVERY_MS);

// What is over opens nothing already; sweeping keeps tables and folders short. At the start and every hour.
const identity = pool(roles.identity, 1, 'sweeping');
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
  clearInterval(mailTimer);
  void Promise.all([sealing, sweeping, askingMails])
    .then(() => worker.stop())
    .then(() => Promise.all([client.$disconnect(), identity.end(), mailLocks.end()]))
    .then(() => process.exit(0));
};
process.on('SIGINT', stop);
process.on('SIGTERM', stop);
