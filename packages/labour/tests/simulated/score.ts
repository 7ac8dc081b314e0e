import {
  type DoneItem,
  fitHours,
  HoursPredictor,
  pinballLoss,
  pitLogNormal,
  RIVALS,
  type Rival,
  Rivals,
} from '../../src/index.ts';
import { type AccessCoverage, accessCoverage } from './access-coverage.ts';
import type { Shop } from './shop.ts';

export type ShopScore = {
  readonly items: number;
  readonly past: number;
  readonly inside: number;
  readonly under: Readonly<Record<'p10' | 'p50' | 'p80' | 'p90', number>>;
  /** Places of the true hours in their forecasts. */
  readonly pit: readonly number[];
  /** Jobs of the same task behind each forecast, and whether it held. */
  readonly byJobs: readonly (readonly [jobs: number, inside: boolean])[];
  /** Mean loss at P80, ours less theirs over ours, where the rival says anything. */
  readonly differences: Readonly<Partial<Record<Rival, number>>>;
  readonly access: AccessCoverage;
  readonly stretch: number;
  readonly ms: number;
};

/** Fits on a shop's history as clocked, and scores on the true hours of the year after, beside the rivals. */
export function scoreShop({ history, later, access }: Shop): ShopScore {
  const began = performance.now();
  const model = fitHours(history);
  const ms = performance.now() - began;
  const predictor = new HoursPredictor(model);
  const rivals = new Rivals();
  for (const item of history) rivals.learn(item);
  const pit: number[] = [];
  const byJobs: [number, boolean][] = [];
  const under = { p10: 0, p50: 0, p80: 0, p90: 0 };
  let inside = 0;
  const sums = new Map<Rival, { ours: number; theirs: number }>();
  for (const { item, trueHours } of later) {
    const forecast = predictor.estimate(item);
    for (const p of ['p10', 'p50', 'p80', 'p90'] as const) {
      under[p] += Number(trueHours <= forecast[p]);
    }
    const held = trueHours >= forecast.p10 && trueHours <= forecast.p90;
    inside += Number(held);
    byJobs.push([forecast.jobs, held]);
    const { location, scale } = forecast.predictive;
    pit.push(pitLogNormal(trueHours, location, scale));
    const done: DoneItem = { ...item, hours: trueHours, censored: false };
    for (const rival of RIVALS) {
      const stated = rivals.forecast(rival, done);
      if (stated === undefined) continue;
      const sum = sums.get(rival) ?? { ours: 0, theirs: 0 };
      sum.ours += pinballLoss(trueHours, forecast.p80, 0.8);
      sum.theirs += pinballLoss(trueHours, stated.p80, 0.8);
      sums.set(rival, sum);
    }
  }
  return {
    items: later.length,
    past: history.length,
    inside,
    under,
    pit,
    byJobs,
    differences: Object.fromEntries(
      [...sums].map(([rival, { ours, theirs }]) => [rival, (ours - theirs) / later.length]),
    ),
    access: accessCoverage(predictor, access),
    stretch: model.stretch,
    ms,
  };
}
