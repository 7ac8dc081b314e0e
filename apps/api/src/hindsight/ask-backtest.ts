import type { Tx } from '@fairlead/database';
import { enqueue } from '@fairlead/database/jobs';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayMinute } from '../given.ts';
import { holdFor } from '../hold.ts';

/** A back-test fits once a month of history: after a fit at most one in so many minutes. */
export const BACKTEST_EVERY_MINUTES = 360;
export const MOST_BACKTEST_ATTEMPTS = 3;
/** From then on a run that has not moved may be asked for again. */
const STILL_MS = 5 * 60_000;

type Run = { startedAt: Date | null; movedAt: Date | null; problem: string };
export const runStandsStill = ({ startedAt, movedAt, problem }: Run, now: Date): boolean =>
  problem === '' &&
  startedAt !== null &&
  now.getTime() - (movedAt ?? startedAt).getTime() > STILL_MS;
const runs = (run: Run, now: Date) =>
  run.problem === '' && run.startedAt !== null && !runStandsStill(run, now);

async function ask(
  tx: Tx,
  { askedAt, dueAt, askedById }: { askedAt: Date; dueAt: Date; askedById: string | null },
): Promise<void> {
  await tx.backtestRun.deleteMany();
  await tx.backtestRun.create({ data: { askedAt, dueAt, askedById }, select: { id: true } });
  await enqueue(
    {
      query: async (sql, values) => ({
        rows: await tx.$queryRawUnsafe<Record<string, unknown>[]>(sql, ...values),
      }),
    },
    { task: 'backtest_hours', key: 'shop', runAt: dueAt, maxAttempts: MOST_BACKTEST_ATTEMPTS },
  );
}

/** After a fit: has the back-test computed anew where it is of another model, when the interval is over. */
export async function askBacktestWhereOld(tx: Tx, now: Date): Promise<void> {
  await holdFor(tx, 'backtest', '');
  const model = await tx.hoursModel.findFirst({
    orderBy: { number: 'desc' },
    select: { number: true },
  });
  const newest = await tx.hoursBacktest.findFirst({
    orderBy: { number: 'desc' },
    select: { modelNumber: true, computedAt: true },
  });
  const run = await tx.backtestRun.findFirst();
  if (!model || newest?.modelNumber === model.number) return;
  // What waits will see the newest items; what runs is of the last interval.
  if (run && run.problem === '' && !runStandsStill(run, now)) return;
  const free = newest ? newest.computedAt.getTime() + BACKTEST_EVERY_MINUTES * 60_000 : 0;
  await ask(tx, { askedAt: now, dueAt: new Date(Math.max(now.getTime(), free)), askedById: null });
}

/** The manager's button: the back-test is computed at once. */
export async function askBacktest(context: Context): Promise<void> {
  const { personId } = await allow(context, 'manager');
  await context.write(async (tx) => {
    // load
    await holdFor(tx, 'backtest', '');
    const run = await tx.backtestRun.findFirst();
    // decide
    const now = context.now();
    if (run?.startedAt && runs(run, now))
      throw new Refused(
        'CONFLICT',
        `It is being computed since ${sayMinute(run.startedAt)}, month ${run.monthsDone} of ${run.monthsAll}: wait for it.`,
      );
    // save
    await ask(tx, { askedAt: now, dueAt: now, askedById: personId });
  });
}
