import { crpsLogNormal, pinballLoss, pitLogNormal } from '../scores.ts';
import type { HoursEstimate } from './predictor.ts';
import { RIVALS, type Rival, type RivalForecast } from './rivals.ts';

const PIT_BINS = 10;

export type Losses = { readonly p50: number; readonly p80: number; readonly p90: number };

type Held = { readonly losses: Losses; readonly inside: boolean };

/** One forecast beside what was clocked, and beside what the rivals had said. */
export type ScoredForecast = Held & {
  readonly under80: boolean;
  readonly under90: boolean;
  readonly crps: number;
  readonly pit: number;
  readonly rivals: ReadonlyMap<Rival, Held>;
};

export type RivalScore = {
  readonly rival: Rival;
  /** Items that the rival had anything to say about; both are scored on these. */
  readonly items: number;
  readonly coverage: number | undefined;
  readonly pinball: Losses;
  readonly model: Losses;
  /** Mean of (model − rival) of the loss at P80 with its 95 % interval: below 0, the model wins. */
  readonly difference80: { readonly mean: number; readonly from: number; readonly to: number };
};

export type ForecastScore = {
  readonly items: number;
  /** Share of items inside P10 to P90: 0.8 when honest. */
  readonly coverage: number | undefined;
  /** Shares under P80 and under P90. */
  readonly under80: number | undefined;
  readonly under90: number | undefined;
  /** Mean pinball losses, hours. */
  readonly pinball: Losses;
  /** Mean continuous ranked probability score, hours. */
  readonly crps: number | undefined;
  /** Items in each tenth of their own forecast: even when honest. */
  readonly pit: readonly number[];
  readonly rivals: readonly RivalScore[];
  /** In one sentence; where a rival wins, it says so. */
  readonly verdict: string;
};

const held = (hours: number, { p10, p50, p80, p90 }: RivalForecast): Held => ({
  losses: {
    p50: pinballLoss(hours, p50, 0.5),
    p80: pinballLoss(hours, p80, 0.8),
    p90: pinballLoss(hours, p90, 0.9),
  },
  inside: hours >= p10 && hours <= p90,
});

/** Holds one forecast against the hours that it took. */
export function scoreForecast(
  hours: number,
  forecast: HoursEstimate,
  rivals: ReadonlyMap<Rival, RivalForecast>,
): ScoredForecast {
  const { location, scale } = forecast.predictive;
  return {
    ...held(hours, forecast),
    under80: hours <= forecast.p80,
    under90: hours <= forecast.p90,
    crps: crpsLogNormal(hours, location, scale),
    pit: pitLogNormal(hours, location, scale),
    rivals: new Map([...rivals].map(([rival, stated]) => [rival, held(hours, stated)])),
  };
}

const meanOf = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;

export const meanLosses = (all: readonly { readonly losses: Losses }[]): Losses => ({
  p50: meanOf(all.map(({ losses }) => losses.p50)),
  p80: meanOf(all.map(({ losses }) => losses.p80)),
  p90: meanOf(all.map(({ losses }) => losses.p90)),
});

function rivalScore(rival: Rival, scored: readonly ScoredForecast[]): RivalScore {
  const both = scored.flatMap((ours) => {
    const theirs = ours.rivals.get(rival);
    return theirs === undefined ? [] : [{ ours, theirs }];
  });
  const differences = both.map(({ ours, theirs }) => ours.losses.p80 - theirs.losses.p80);
  const mean = meanOf(differences);
  const variance = meanOf(differences.map((value) => (value - mean) ** 2));
  const reach = both.length < 2 ? 0 : 1.959963984540054 * Math.sqrt(variance / (both.length - 1));
  return {
    rival,
    items: both.length,
    coverage:
      both.length === 0 ? undefined : meanOf(both.map(({ theirs }) => Number(theirs.inside))),
    pinball: meanLosses(both.map(({ theirs }) => theirs)),
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

/** Scores of some forecasts together. */
export function scoreOf(scored: readonly ScoredForecast[]): ForecastScore {
  const share = (is: (one: ScoredForecast) => boolean) =>
    scored.length === 0 ? undefined : scored.filter(is).length / scored.length;
  const pit = new Array<number>(PIT_BINS).fill(0);
  for (const one of scored) pit[Math.min(PIT_BINS - 1, Math.floor(one.pit * PIT_BINS))]! += 1;
  const rivals = RIVALS.map((rival) => rivalScore(rival, scored));
  return {
    items: scored.length,
    coverage: share(({ inside }) => inside),
    under80: share(({ under80 }) => under80),
    under90: share(({ under90 }) => under90),
    pinball: meanLosses(scored),
    crps: scored.length === 0 ? undefined : meanOf(scored.map(({ crps }) => crps)),
    pit,
    rivals,
    verdict: verdictOf(scored.length, rivals),
  };
}
