import type { Client } from '@fairlead/database';
import type { JobTask } from '@fairlead/database/jobs';
import { historyJobs } from './hindsight/history-jobs.ts';

/** Every job that the worker does, by name. */
export const jobTasks = (client: Client): Record<string, JobTask> => ({ ...historyJobs(client) });
