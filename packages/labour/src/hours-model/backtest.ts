import { crpsLogNormal, pinballLoss, pitLogNormal } from '../scores.ts';
import type { DoneItem } from './coding.ts';
import { type FitHoursOptions, fitHours } from './fit-hours.ts';
import type { HoursModel } from './hours-model.ts';
import { HoursPredictor } from './predictor.ts';
import { RIVALS, type Rival, Rivals } from './rivals.ts';

/** An item with the day it was completed, ISO 8601. */
export type DatedItem = DoneItem & { readonly completedOn: string };

/** Months of the past before the first one that is predicted. */
const FIRST_MONTHS = 3;
const FEWEST_ITEMS = 20;
const PIT_BINS = 10;

export type MonthScore = {
  /** `2026-03`. */
  readonly month: string;
  readonly items: number;
  /** Items inside P10 to P90. */
  readonly within: number;
  /** Mean pinball loss at P80, hours. */
  readonly pinball80: number;
};

export type RivalScore = {
  readonly rival: Rival;
  /** Items that the rival had anything to say about; both are scored on these. */
  readonly items: number;
  readonly coverage: number | undefined;
  readonly pinball: { readonly p50: number; readonly p80: number; readonly p90: number };
  readonly model: { readonly p50: number; readonly p80: number; readonly p90: number };
  /** Mean of (model − rival) of the loss at P80 with its 95 % interval: below 0, the model wins. */
  readonly difference80: { readonly mean: number; readonly from: number; readonly to: number };
};

export type Backtest = {
  readonly months: readonly MonthScore[];
  readonly items: number;
  /** Share of items inside P10 to P90: 0.8 when honest. */
  readonly coverage: number | undefined;
  /** Shares under P80 and under P90. */
  readonly under80: number | undefined;
  readonly under90: number | undefined;
  readonly pinball: { readonly p50: number; readonly p80: number; readonly p90: number };
  /** Mean continuous ranked probability score, hours. */
  readonly crps: number | undefined;
  /** Items in each tenth of their own forecast: even when honest. */
  readonly pit: readonly number[];
  readonly rivals: readonly RivalScore[];
  /** In one sentence; where a rival wins, it says so. */
  readonly verdict: string;
};

type Losses = { p50: number; p80: number; p90: number };
type Scored = {
  readonly item: DatedItem;
  readonly losses: Losses;
  readonly inside: boolean;
  readonly rivals: ReadonlyMap<Rival, { losses: Losses; inside: boolean }>;
};

const lossesOf = (hours: number, forecast: Losses): Losses => ({
  p50: pinballLoss(hours, forecast.p50, 0.5),
  p80: pinballLoss(hours, forecast.p80, 0.8),
  p90: pinballLoss(hours, forecast.p90, 0.9),
});

const meanOf = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;

const meanLosses = (all: readonly Losses[]): Losses => ({
  p50: meanOf(all.map(({ p50 }) => p50)),
  p80: meanOf(all.map(({ p80 }) => p80)),
  p90: meanOf(all.map(({ p90 }) => p90)),
});

function rivalScore(rival: Rival, scored: readonly Scored[]): RivalScore {
  const both = scored.flatMap(({ losses, rivals }) => {
    const theirs = rivals.get(rival);
    return theirs === undefined ? [] : [{ ours: losses, theirs }];
  });
  const differences = both.map(({ ours, theirs }) => ours.p80 - theirs.losses.p80);
  const mean = meanOf(differences);
  const variance = meanOf(differences.map((value) => (value - mean) ** 2));
  const reach = both.length < 2 ? 0 : 1.959963984540054 * Math.sqrt(variance / (both.length - 1));
  return {
    rival,
    items: both.length,
    coverage:
      both.length === 0 ? undefined : meanOf(both.map(({ theirs }) => Number(theirs.inside))),
    pinball: meanLosses(both.map(({ theirs }) => theirs.losses)),
    model: meanLosses(both.map(({ ours }) => ours)),
    difference80: { mean, from: mean - reach, to: mean + reach },
  };
}

function verdictOf(items: number, rivals: readonly RivalScore[]): string {
  if (items === 0) return 'Too few past jobs to look back on: some months of them are needed.';
  const better = rivals.filter(({ items: n, difference80 }) => n > 1 && difference80.from > 0);
  if (better.length > 0) {
    return `For this shop ${better.map(({ rival }) => `"${rival}"`).join(' and ')} would have done better than the model.`;
  }
  const even = rivals.filter(({ items: n, difference80 }) => n > 1 && difference80.to >= 0);
  return even.length === 0
    ? 'The model did better than each plain rule.'
    : `The model did no worse than any plain rule; from ${even.map(({ rival }) => `"${rival}"`).join(', ')} it cannot be told apart yet.`;
}

/**
 * Rolling back-test: at each month's start fit on what was completed before, predict the month, compare with what was
 * clocked. Lower bounds are not scored. Items are predicted for the place given with them; pass the place as planned.
 *
 * @param items in any order; those of one day keep theirs
 * @throws RangeError for what `fitHours` refuses, or a day that is not ISO 8601
 */
export function backtest(
  items: readonly DatedItem[],
  options: Pick<FitHoursOptions, 'priors' | 'accessPriors'> & {
    readonly progress?: ((month: string) => void) | undefined;
  } = {},
): Backtest {
  const wrong = items.find(({ completedOn }) => !/^\d{4}-\d{2}-\d{2}$/.test(completedOn));
  if (wrong !== undefined) {
    throw new RangeError(`A day must be ISO 8601 (2026-03-09); got "${wrong.completedOn}".`);
  }
  const byDay = items.toSorted((a, b) =>
    a.completedOn < b.completedOn ? -1 : a.completedOn > b.completedOn ? 1 : 0,
  );
  const months = [...new Set(byDay.map(({ completedOn }) => completedOn.slice(0, 7)))];
  const rivals = new Rivals();
  const scored: Scored[] = [];
  const monthScores: MonthScore[] = [];
  const pit = new Array<number>(PIT_BINS).fill(0);
  const crps: number[] = [];
  let under80 = 0;
  let under90 = 0;
  let former: HoursModel | undefined;
  let past = 0;
  for (const [index, month] of months.entries()) {
    const before = byDay.slice(0, past);
    const now = byDay.slice(past).filter(({ completedOn }) => completedOn.startsWith(month));
    past += now.length;
    if (index >= FIRST_MONTHS && before.length >= FEWEST_ITEMS) {
      options.progress?.(month);
      former = fitHours(before, { ...options, former, progress: undefined });
      const predictor = new HoursPredictor(former);
      const ofMonth: Scored[] = [];
      for (const item of now) {
        if (item.censored) continue;
        const forecast = predictor.estimate(item);
        const { location, scale } = forecast.predictive;
        const { hours } = item;
        under80 += Number(hours <= forecast.p80);
        under90 += Number(hours <= forecast.p90);
        crps.push(crpsLogNormal(hours, location, scale));
        pit[Math.min(PIT_BINS - 1, Math.floor(pitLogNormal(hours, location, scale) * PIT_BINS))]! +=
          1;
        const theirs = new Map<Rival, { losses: Losses; inside: boolean }>();
        for (const rival of RIVALS) {
          const stated = rivals.forecast(rival, item);
          if (stated === undefined) continue;
          theirs.set(rival, {
            losses: lossesOf(hours, stated),
            inside: hours >= stated.p10 && hours <= stated.p90,
          });
        }
        ofMonth.push({
          item,
          losses: lossesOf(hours, forecast),
          inside: hours >= forecast.p10 && hours <= forecast.p90,
          rivals: theirs,
        });
      }
      scored.push(...ofMonth);
      monthScores.push({
        month,
        items: ofMonth.length,
        within: ofMonth.filter(({ inside }) => inside).length,
        pinball80: meanLosses(ofMonth.map(({ losses }) => losses)).p80,
      });
    }
    for (const item of now) rivals.learn(item);
  }
  const share = (count: number) => (scored.length === 0 ? undefined : count / scored.length);
  const scores = RIVALS.map((rival) => rivalScore(rival, scored));
  return {
    months: monthScores,
    items: scored.length,
    coverage: share(scored.filter(({ inside }) => inside).length),
    under80: share(under80),
    under90: share(under90),
    pinball: meanLosses(scored.map(({ losses }) => losses)),
    crps: scored.length === 0 ? undefined : meanOf(crps),
    pit,
    rivals: scores,
    verdict: verdictOf(scored.length, scores),
  };
}
