import type { Tx } from '@fairlead/database';
import type { MonthScore } from '@fairlead/labour';
import type { KeptBacktest } from './backtest-kept.ts';

/** The newest back-test, opened. */
export async function newestBacktest(read: Tx) {
  const row = await read.hoursBacktest.findFirst({
    orderBy: { number: 'desc' },
    include: { askedBy: { select: { name: true } } },
  });
  return row && { ...row, kept: row.result as unknown as KeptBacktest };
}
export type NewestBacktest = NonNullable<Awaited<ReturnType<typeof newestBacktest>>>;

/** The back-test that waits or runs. */
export const backtestRun = (read: Tx) =>
  read.backtestRun.findFirst({ include: { askedBy: { select: { name: true } } } });
export type RunRow = NonNullable<Awaited<ReturnType<typeof backtestRun>>>;

const after = (month: string) => {
  const [year = 0, number = 1] = month.split('-').map(Number);
  return number === 12 ? `${year + 1}-01` : `${year}-${String(number + 1).padStart(2, '0')}`;
};

/** Every month from the first to the last, also those in which nothing was finished. */
export function everyMonth(months: readonly MonthScore[]): MonthScore[] {
  const known = new Map(months.map((each) => [each.month, each]));
  const [first, last] = [months[0]?.month, months.at(-1)?.month];
  const all: MonthScore[] = [];
  if (first && last)
    for (let month = first; month <= last; month = after(month))
      all.push(known.get(month) ?? { month, items: 0, within: 0, pinball80: 0 });
  return all;
}
