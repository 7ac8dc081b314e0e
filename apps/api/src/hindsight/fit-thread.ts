import { Worker } from 'node:worker_threads';
import type { AccessPriors, Backtest, DatedItem, HoursModel } from '@fairlead/labour';
import type { KeptOddTime, WatchedPast } from './odd-times-of.ts';

/** What a thread is given. */
export type FitRequest =
  | { kind: 'fit'; items: readonly WatchedPast[]; access: AccessPriors }
  | { kind: 'backtest'; items: readonly DatedItem[]; access: AccessPriors };

/** What it answers. */
export interface Fitted {
  model: HoursModel;
  odd: readonly KeptOddTime[];
}
type Said<Answer> = { answer: Answer } | { month: string };

/**
 * Fits a model in a thread of its own, which ends with it: the audit is sealed meanwhile, and its memory is given back.
 *
 * @throws Error when the thread fails
 */
export const fitInThread = (request: Omit<FitRequest & { kind: 'fit' }, 'kind'>): Promise<Fitted> =>
  inThread({ kind: 'fit', ...request });

/**
 * Back-tests in a thread of its own.
 *
 * @param onMonth called with each month that is being predicted
 * @throws Error when the thread fails
 */
export const backtestInThread = (
  request: Omit<FitRequest & { kind: 'backtest' }, 'kind'>,
  onMonth: (month: string) => void,
): Promise<Backtest> => inThread({ kind: 'backtest', ...request }, onMonth);

function inThread<Answer>(request: FitRequest, onMonth?: (month: string) => void): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(new URL('./fit-thread-main.mjs', import.meta.url), {
      workerData: request,
    });
    thread.on('message', (said: Said<Answer>) => {
      if ('answer' in said) resolve(said.answer);
      else onMonth?.(said.month);
    });
    thread.once('error', reject);
    thread.once('exit', (code) =>
      reject(new Error(`The thread for ${request.kind} ended with code ${code} and no answer.`)),
    );
  });
}
