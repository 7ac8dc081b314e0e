import { type Client, inShop, type Tx } from '@fairlead/database';
import { enqueue, type JobTask, shopsToFit } from '@fairlead/database/jobs';
import { HOURS_MODEL_VERSION } from '@fairlead/labour';
import type pg from 'pg';
import { newId } from '../new-id.ts';
import { askBacktestWhereOld } from './ask-backtest.ts';
import { fitInThread } from './fit-thread.ts';
import { fitInputs, keepModel } from './hours-model.ts';

/** Learning again after each item would fit the same times over and over: at most one fit in so many minutes. */
export const REFIT_EVERY_MINUTES = 10;
/** Models that no quote names are put away, but for the newest. */
const KEPT_UNNAMED = 20;
const LONGEST_MS = 120_000;

/**
 * Has the worker fit the shop's hours again, within the transaction that gave it something to learn: after the interval,
 * or at once where somebody waits for it.
 */
export async function askRefit(tx: Tx, now: Date, { atOnce = false } = {}): Promise<void> {
  const last = atOnce ? null : await tx.refitRun.findFirst({ select: { endedAt: true } });
  const free = last ? last.endedAt.getTime() + REFIT_EVERY_MINUTES * 60_000 : 0;
  const runAt = new Date(Math.max(now.getTime(), free));
  await enqueue(
    {
      query: async (sql, values) => ({
        rows: await tx.$queryRawUnsafe<Record<string, unknown>[]>(sql, ...values),
      }),
    },
    // What waits already is not put off by what comes after it.
    { task: 'refit_hours', key: 'shop', keepsTime: !atOnce, runAt, maxAttempts: 5 },
  );
}

/** When the worker starts: shops whose models are of another version of the program, or that never had one, are fitted at once. */
export async function askMissingFits(client: Client, pool: pg.Pool): Promise<number> {
  const shops = await shopsToFit(pool, HOURS_MODEL_VERSION);
  for (const shopId of shops)
    await inShop(client, { shopId, personId: null, requestId: newId() }, (tx) =>
      askRefit(tx, new Date(), { atOnce: true }),
    );
  return shops.length;
}

/** The worker's job: reads in one transaction, fits in none, keeps the model in another. No quote waits for it. */
export const refitJobs = (client: Client): Record<'refit_hours', JobTask> => ({
  refit_hours: async ({ shopId }) => {
    const scope = { shopId, personId: null, requestId: newId() };
    const inside = <T>(work: (tx: Tx) => Promise<T>) =>
      inShop(client, scope, work, { timeoutMs: LONGEST_MS });
    const { items, priors } = await inside(fitInputs);
    const began = performance.now();
    const { model, odd } = await fitInThread({ items, access: priors.access });
    const ms = Math.round(performance.now() - began);
    await inside(async (tx) => {
      const endedAt = new Date();
      await keepModel(tx, { model, odd, priorsId: priors.id, fittedAt: endedAt, ms });
      const { count } = await tx.refitRun.updateMany({ data: { endedAt } });
      if (count === 0) await tx.refitRun.create({ data: { endedAt }, select: { id: true } });
      await putAwayUnnamed(tx);
      await askBacktestWhereOld(tx, new Date());
    });
  },
});

async function putAwayUnnamed(tx: Tx): Promise<void> {
  const unnamed = await tx.hoursModel.findMany({
    where: { revisions: { none: {} } },
    orderBy: { number: 'desc' },
    skip: KEPT_UNNAMED,
    select: { id: true },
  });
  await tx.hoursModel.deleteMany({ where: { id: { in: unnamed.map(({ id }) => id) } } });
}
