export {
  type AccessEffect,
  type AccessLoading,
  type AccessPart,
  accessEffect,
  accessLoadings,
} from './access.ts';
export * from './access-conditions.ts';
export * from './access-priors.ts';
export * from './accuracy.ts';
export * from './classical.ts';
export * from './coverage.ts';
export {
  FINDING_PRIORS,
  type FindingCount,
  type FindingPriors,
} from './findings/finding-counts.ts';
export * from './findings/finding-frequency.ts';
export * from './findings/likely-findings.ts';
export * from './findings/with-findings.ts';
export * from './history.ts';
export {
  HISTORY_COLUMNS,
  type HistoryColumn,
  type HistoryRow,
  type MechanicShare,
  REASON_COLUMN,
} from './history-columns.ts';
export { rowKey, rowKeys } from './history-keys.ts';
export { writeRefused } from './history-refused.ts';
export { type Hours, hours } from './hours.ts';
export { hoursLeft } from './hours-left.ts';
export * from './hours-model/access-posterior.ts';
export * from './hours-model/backtest.ts';
export { type DoneItem, doneItem, type PlannedItem } from './hours-model/coding.ts';
export * from './hours-model/fit-hours.ts';
export type { ForecastScore, Losses, RivalScore } from './hours-model/forecast-score.ts';
export * from './hours-model/hours-model.ts';
export * from './hours-model/items-file.ts';
export { oneSentence } from './hours-model/one-sentence.ts';
export { packageItems, packageOf } from './hours-model/package-of.ts';
export * from './hours-model/predictor.ts';
export * from './hours-model/priors.ts';
export { readModel } from './hours-model/read-model.ts';
export { reasonsOf } from './hours-model/reasons-of.ts';
export { RIVALS, type Rival, Rivals } from './hours-model/rivals.ts';
export { normalStretch } from './hours-model/stretch.ts';
export * from './hours-model/suspicious-times.ts';
export * from './kept-promises.ts';
export { CollinearError } from './mixed/criterion.ts';
export * from './mixed/fit.ts';
export * from './mixed/regress.ts';
export { readTable } from './mixed/table.ts';
export { sumMoments } from './moments.ts';
export * from './package.ts';
export { drawItems } from './package-draws.ts';
export * from './package-item.ts';
export { quickSumOfItems } from './package-moments.ts';
export {
  behindOpeningReason,
  chainHours,
  type Link,
  type Note,
  openedOnceReason,
  type Reason,
  type Start,
} from './reasons.ts';
export { Sample } from './sample.ts';
export * from './scores.ts';
export { hoursQuantile, type Predictive, studentQuantile } from './student.ts';
