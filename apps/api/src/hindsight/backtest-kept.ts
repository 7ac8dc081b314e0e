import type { Backtest, ForecastScore, MonthScore, SliceScore } from '@fairlead/labour';

/** Slices that are kept of each kind: those with the most items; the others say little one by one. */
export const MOST_SLICES = 60;

/** A back-test as it is kept. */
export interface KeptBacktest {
  score: ForecastScore;
  months: readonly MonthScore[];
  byTask: readonly SliceScore[];
  byMechanic: readonly SliceScore[];
  byModel: readonly SliceScore[];
}

/** A back-test without what nobody reads. */
export function keptBacktest({
  months,
  byTask,
  byMechanic,
  byModel,
  ...score
}: Backtest): KeptBacktest {
  const some = (slices: readonly SliceScore[]) => slices.slice(0, MOST_SLICES);
  return {
    score,
    months,
    byTask: some(byTask),
    byMechanic: some(byMechanic),
    byModel: some(byModel),
  };
}
