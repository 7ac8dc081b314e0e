import type { Client } from '@fairlead/database';
import type { JobTask } from '@fairlead/database/jobs';
import { backtestJobs } from './hindsight/backtest-hours.ts';
import { historyJobs } from './hindsight/history-jobs.ts';
import { refitJobs } from './hindsight/refit-hours.ts';
import { drawForMail } from './paper/draw-for-mail.ts';
import { type PostParts, postJobs } from './post/send-mail.ts';

/** Every job that the worker does, by name. Mail needs more than the database: without its parts none is sent. */
export const jobTasks = (
  client: Client,
  post?: Omit<PostParts, 'draw'>,
): Record<string, JobTask> => ({
  ...historyJobs(client),
  ...refitJobs(client),
  ...backtestJobs(client),
  ...(post && postJobs(client, { ...post, draw: drawForMail(post) })),
});
