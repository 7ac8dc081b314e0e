import { crpsLogNormal, pinballLoss, pitLogNormal } from '../scores.ts';
import type { HoursEstimate } from './predictor.ts';
import { type Quantiles, RIVALS, type Rival, type RivalForecast } from './rivals.ts';

const PIT_BINS = 10;
const noTenths = (): number[] => new Array<number>(PIT_BINS).fill(0);

export type Losses = { readonly p50: number; readonly p80: number; readonly p90: number };

type Held = { readonly losses: Losses; readonly inside: boolean };
type RivalHeld = Held & {
  readonly crps: number;
  readonly pit: { readonly from: number; readonly to: number };
};

/** One forecast beside what was clocked, and beside what the rivals had said. */
export type ScoredForecast = Held & {
  readonly under80: boolean;
  readonly under90: boolean;
  readonly crps: number;
  readonly pit: number;
  readonly rivals: ReadonlyMap<Rival, RivalHeld>;
};

export type RivalScore = {
  readonly rival: Rival;
  /** Items that the rival had anything to say about; both are scored on these. */
  readonly items: number;
  readonly coverage: number | undefined;
  readonly pinball: Losses;
  readonly model: Losses;
  /** Mean CRPS, hours, its own and the model's; undefined for no items, and where it was not scored then. */
  readonly crps: number | undefined;
  readonly modelCrps: number | undefined;
  /** Items in each tenth of its forecast (see `addToTenths`), so fractions are legal; undefined likewise. */
  readonly pit: readonly number[] | undefined;
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

const held = (hours: number, { p10, p50, p80, p90 }: Quantiles): Held => ({
  losses: {
    p50: pinballLoss(hours, p50, 0.5),
    p80: pinballLoss(hours, p80, 0.8),
    p90: pinballLoss(hours, p90, 0.9),
  },
  inside: hours >= p10 && hours <= p90,
});

function heldRival(hours: number, stated: RivalForecast): RivalHeld {
  const { sample, times } = stated;
  return {
    ...held(hours, stated),
    crps: times * sample.crps(hours / times),
    pit: sample.pit(hours / times),
  };
}

/**
 * Counts one item in the tenths of a forecast that is a sample: spread evenly from F(y−) to F(y), which is what the
 * randomised transform does on average (Czado, Gneiting & Held 2009, Biometrics 65). Where nothing in the sample is equal to
 * what was clocked the two are one, and on the border of two tenths it counts half to each.
 */
function addToTenths(tenths: number[], { from, to }: RivalHeld['pit']): void {
  const last = tenths.length - 1;
  if (from === to) {
    const at = from * tenths.length;
    const border = Number.isInteger(at) && at > 0 && at <= last;
    for (const tenth of border ? [at - 1, at] : [Math.min(last, Math.floor(at))])
      tenths[tenth]! += border ? 0.5 : 1;
    return;
  }
  for (const tenth of tenths.keys()) {
    const shared =
      Math.min(to, (tenth + 1) / tenths.length) - Math.max(from, tenth / tenths.length);
    if (shared > 0) tenths[tenth]! += shared / (to - from);
  }
}

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
    rivals: new Map([...rivals].map(([rival, stated]) => [rival, heldRival(hours, stated)])),
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
  const pit = noTenths();
  for (const { theirs } of both) addToTenths(pit, theirs.pit);
  const some = both.length > 0;
  const reach = both.length < 2 ? 0 : 1.959963984540054 * Math.sqrt(variance / (both.length - 1));
  return {
    rival,
    items: both.length,
    coverage: some ? meanOf(both.map(({ theirs }) => Number(theirs.inside))) : undefined,
    pinball: meanLosses(both.map(({ theirs }) => theirs)),
    model: meanLosses(both.map(({ ours }) => ours)),
    crps: some ? meanOf(both.map(({ theirs }) => theirs.crps)) : undefined,
    modelCrps: some ? meanOf(both.map(({ ours }) => ours.crps)) : undefined,
    pit: some ? pit : undefined,
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
  const pit = noTenths();
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
