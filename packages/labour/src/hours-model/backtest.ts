import type { AccessConditions } from '../access-conditions.ts';
import { ACCESS_PRIORS } from '../access-priors.ts';
import { hours } from '../hours.ts';
import { type CodingTables, codeItem, type DoneItem } from './coding.ts';
import { type FitHoursOptions, fitHours } from './fit-hours.ts';
import {
  type ForecastScore,
  meanLosses,
  type ScoredForecast,
  scoreForecast,
  scoreOf,
} from './forecast-score.ts';
import type { HoursModel } from './hours-model.ts';
import { HoursPredictor } from './predictor.ts';
import { HOURS_PRIORS } from './priors.ts';
import { RIVALS, Rivals } from './rivals.ts';

/** An item with the day it was completed, ISO 8601. */
export type DatedItem = DoneItem & {
  readonly completedOn: string;
  /** The place as it was known before: what it is predicted for. Undefined: as it was found. */
  readonly planned?: AccessConditions | undefined;
};

/** Months of the past before the first one that is predicted. */
const FIRST_MONTHS = 3;
const FEWEST_ITEMS = 20;

export type MonthScore = {
  /** `2026-03`. */
  readonly month: string;
  readonly items: number;
  /** Items inside P10 to P90. */
  readonly within: number;
  /** Mean pinball loss at P80, hours. */
  readonly pinball80: number;
};

/** The same scores for one task, mechanic or model. */
export type SliceScore = ForecastScore & { readonly key: string };

export type Backtest = ForecastScore & {
  readonly months: readonly MonthScore[];
  /** Most items first. An item of several mechanics counts for each of them. */
  readonly byTask: readonly SliceScore[];
  readonly byMechanic: readonly SliceScore[];
  readonly byModel: readonly SliceScore[];
};

const ISO_DAY = /^\d{4}-\d{2}-\d{2}$/;
const isDay = (day: string): boolean =>
  ISO_DAY.test(day) && new Date(`${day}T00:00:00Z`).toJSON()?.startsWith(day) === true;

/** Refuses an item before anything is computed, wherever it stands: the first month's are only learned from, the last only scored. */
function check(item: DatedItem, number: number, tables: CodingTables): void {
  try {
    if (!isDay(item.completedOn)) {
      throw new RangeError(`A day must be ISO 8601 (2026-03-09); got "${item.completedOn}".`);
    }
    hours(item.hours);
    codeItem(item, tables);
    codeItem({ ...item, place: item.planned }, tables);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new RangeError(`Item ${number}: ${error.message}`, { cause: error });
  }
}

type Scored = ScoredForecast & { readonly item: DatedItem };

function sliced(
  scored: readonly Scored[],
  keysOf: (item: DatedItem) => readonly string[],
): SliceScore[] {
  const slices = new Map<string, Scored[]>();
  for (const one of scored) {
    for (const key of new Set(keysOf(one.item))) {
      const slice = slices.get(key);
      if (slice === undefined) slices.set(key, [one]);
      else slice.push(one);
    }
  }
  return [...slices]
    .map(([key, some]) => ({ key, ...scoreOf(some) }))
    .sort((a, b) => b.items - a.items || (a.key < b.key ? -1 : 1));
}

/** Predicts one month and holds it against the clock. */
function scoreMonth(
  now: readonly DatedItem[],
  predictor: HoursPredictor,
  rivals: Rivals,
): Scored[] {
  return now.flatMap((item) => {
    if (item.censored) return [];
    const forecast = predictor.estimate({ ...item, place: item.planned ?? item.place });
    const stated = RIVALS.flatMap((rival) => {
      const theirs = rivals.forecast(rival, item);
      return theirs === undefined ? [] : [[rival, theirs] as const];
    });
    return [{ item, ...scoreForecast(item.hours, forecast, new Map(stated)) }];
  });
}

/**
 * Rolling back-test: at each month's start fit on what was completed before, predict the month, compare with what was
 * clocked. Lower bounds are not scored. The fit is on the place as found, the prediction for the place as planned.
 *
 * @param items in any order; those of one day keep theirs
 * @throws RangeError for what `fitHours` refuses, or a day that is none, with the number of the item, counted from 1
 */
export function backtest(
  items: readonly DatedItem[],
  options: Pick<FitHoursOptions, 'priors' | 'accessPriors'> & {
    readonly progress?: ((month: string) => void) | undefined;
  } = {},
): Backtest {
  const { priors = HOURS_PRIORS, accessPriors = ACCESS_PRIORS } = options;
  const tables = { priors, accessPriors, medianHours: priors.medianHours };
  for (const [index, item] of items.entries()) check(item, index + 1, tables);
  const byDay = items.toSorted((a, b) =>
    a.completedOn < b.completedOn ? -1 : a.completedOn > b.completedOn ? 1 : 0,
  );
  const months = [...new Set(byDay.map(({ completedOn }) => completedOn.slice(0, 7)))];
  const rivals = new Rivals();
  const scored: Scored[] = [];
  const monthScores: MonthScore[] = [];
  let former: HoursModel | undefined;
  let past = 0;
  for (const [index, month] of months.entries()) {
    const before = byDay.slice(0, past);
    const now = byDay.slice(past).filter(({ completedOn }) => completedOn.startsWith(month));
    past += now.length;
    if (index >= FIRST_MONTHS && before.length >= FEWEST_ITEMS) {
      options.progress?.(month);
      former = fitHours(before, { ...options, former, progress: undefined });
      const ofMonth = scoreMonth(now, new HoursPredictor(former), rivals);
      scored.push(...ofMonth);
      monthScores.push({
        month,
        items: ofMonth.length,
        within: ofMonth.filter(({ inside }) => inside).length,
        pinball80: meanLosses(ofMonth).p80,
      });
    }
    for (const item of now) rivals.learn(item);
  }
  return {
    ...scoreOf(scored),
    months: monthScores,
    byTask: sliced(scored, ({ task }) => [task]),
    byMechanic: sliced(scored, ({ mechanics }) => mechanics.map(({ name }) => name)),
    byModel: sliced(scored, ({ model }) => (model === undefined ? [] : [model])),
  };
}
