import { type Client, inShop, type Tx } from '@fairlead/database';
import type { JobTask } from '@fairlead/database/jobs';
import { type DatedItem, HOURS_MODEL_VERSION } from '@fairlead/labour';
import { conditionsFrom } from '../conditions.ts';
import { newId } from '../new-id.ts';
import { MOST_BACKTEST_ATTEMPTS } from './ask-backtest.ts';
import { keptBacktest } from './backtest-kept.ts';
import { learnedFrom, pastItems } from './done-items.ts';
import { backtestInThread } from './fit-thread.ts';
import { accessPriors } from './hours-model.ts';

const LONGEST_MS = 120_000;
const TOLD_EVERY_MS = 1000;

/**
 * Past items as they are back-tested: fitted on the place as it was found, predicted for the place as it was planned.
 * Where none was planned, nothing of the place was known. A history file knows only what was found.
 */
async function datedItems(tx: Tx): Promise<DatedItem[]> {
  const items = learnedFrom(await pastItems(tx));
  const planned = await tx.workItem.findMany({
    where: { plannedAccessId: { not: null } },
    select: { id: true, plannedAccess: true },
  });
  const placeOf = new Map(
    planned.map(({ id, plannedAccess }) => [id, conditionsFrom(plannedAccess)]),
  );
  return items.map(({ itemId, completedOn, ...item }) => ({
    ...item,
    completedOn: completedOn.toISOString().slice(0, 10),
    planned: itemId === null ? undefined : (placeOf.get(itemId) ?? {}),
  }));
}

/** The worker's job: reads in one transaction, computes in none, tells how far it is, keeps the result in another. */
export const backtestJobs = (client: Client): Record<'backtest_hours', JobTask> => ({
  backtest_hours: async ({ shopId }, attempt) => {
    const scope = { shopId, personId: null, requestId: newId() };
    const inside = <T>(work: (tx: Tx) => Promise<T>) =>
      inShop(client, scope, work, { timeoutMs: LONGEST_MS });
    const startedAt = new Date();
    const loaded = await inside(async (tx) => {
      const run = await tx.backtestRun.findFirst();
      if (!run) return null;
      const items = await datedItems(tx);
      const months = [...new Set(items.map(({ completedOn }) => completedOn.slice(0, 7)))];
      await tx.backtestRun.updateMany({
        where: { id: run.id },
        data: {
          startedAt,
          movedAt: startedAt,
          monthsDone: 0,
          monthsAll: months.length,
          problem: '',
        },
      });
      const model = await tx.hoursModel.findFirst({
        orderBy: { number: 'desc' },
        select: { number: true },
      });
      const { access } = await accessPriors(tx);
      return { run, items, months, access, modelNumber: model?.number ?? 0 };
    });
    if (!loaded) return; // computed meanwhile
    const { run, items, months, access, modelNumber } = loaded;
    const note = (data: { movedAt?: Date; monthsDone?: number; problem?: string }) =>
      inside((tx) => tx.backtestRun.updateMany({ where: { id: run.id }, data }));
    let told = Date.now();
    let telling: Promise<unknown> = Promise.resolve();
    const onMonth = (month: string) => {
      if (Date.now() - told < TOLD_EVERY_MS) return;
      told = Date.now();
      const monthsDone = months.indexOf(month);
      telling = telling
        .then(() => note({ movedAt: new Date(), monthsDone }))
        .catch(() => undefined); // how far it is, is not worth failing for
    };
    try {
      const result = keptBacktest(await backtestInThread({ items, access }, onMonth));
      await telling;
      await inside(async (tx) => {
        await tx.hoursBacktest.create({
          data: {
            modelNumber,
            version: HOURS_MODEL_VERSION,
            items: items.length,
            scored: result.score.items,
            result: structuredClone(result) as unknown as object,
            computedAt: new Date(),
            ms: Date.now() - startedAt.getTime(),
            askedById: run.askedById,
          },
          select: { id: true },
        });
        await tx.backtestRun.deleteMany({ where: { id: run.id } });
      });
    } catch (error) {
      await telling;
      if (attempt >= MOST_BACKTEST_ATTEMPTS)
        await note({
          problem:
            'It went wrong on our side, three times. What was computed before still stands; ask again.',
        });
      throw error;
    }
  },
});
