import type { Client } from '@fairlead/database';
import type { JobTask } from '@fairlead/database/jobs';
import { backtestJobs } from './hindsight/backtest-hours.ts';
import { historyJobs } from './hindsight/history-jobs.ts';
import { refitJobs } from './hindsight/refit-hours.ts';

/** Every job that the worker does, by name. */
export const jobTasks = (client: Client): Record<string, JobTask> => ({
  ...historyJobs(client),
  ...refitJobs(client),
  ...backtestJobs(client),
});
