import { Sample } from '../sample.ts';
import type { DoneItem } from './coding.ts';

/** A plain way to say how long something takes, for the model to be held against. */
export const RIVALS = ['standard', 'mean', 'last', 'median', 'own quantiles'] as const;
export type Rival = (typeof RIVALS)[number];

/** Quantiles of hours as they are stated. */
export type Quantiles = {
  readonly p10: number;
  readonly p50: number;
  readonly p80: number;
  readonly p90: number;
};

/** A rival's forecast: the hours in `sample`, each `times` over, are as likely as each other. Its sample grows as it learns. */
export type RivalForecast = Quantiles & { readonly sample: Sample; readonly times: number };

/** Past errors that a rival needs before it may state quantiles. */
const FEWEST = 10;

/**
 * Five plain rivals, which see the same past as the model: the standard time, and the mean, the last and the median of the
 * task's own past times, each turned into quantiles by how far it was off before (actual over stated, all tasks together);
 * and the plain quantiles of the task's own past times. Without a standard, or a past, a rival says nothing.
 */
export class Rivals {
  readonly #times = new Map<string, { sample: Sample; sum: number; last: number }>();
  readonly #ratios = new Map<Rival, Sample>(RIVALS.map((rival) => [rival, new Sample()]));

  #point(rival: Rival, { task, standardHours }: DoneItem): number | undefined {
    if (rival === 'standard') return standardHours;
    const past = this.#times.get(task);
    if (past === undefined) return undefined;
    if (rival === 'mean') return past.sum / past.sample.size;
    if (rival === 'last') return past.last;
    return past.sample.quantile(0.5);
  }

  forecast(rival: Rival, item: DoneItem): RivalForecast | undefined {
    const stated = this.#point(rival, item);
    if (stated === undefined) return undefined;
    const own = rival === 'own quantiles';
    const sample = own ? this.#times.get(item.task)!.sample : this.#ratios.get(rival)!;
    if (sample.size < (own ? 2 : FEWEST)) return undefined;
    const times = own ? 1 : stated;
    const at = (p: number) => sample.quantile(p) * times;
    return { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90: at(0.9), sample, times };
  }

  /** Takes an item into the past. A lower bound is no time, and stays out. */
  learn(item: DoneItem): void {
    if (item.censored) return;
    for (const rival of RIVALS) {
      const stated = this.#point(rival, item);
      if (stated !== undefined) this.#ratios.get(rival)!.add(item.hours / stated);
    }
    const past = this.#times.get(item.task) ?? { sample: new Sample(), sum: 0, last: 0 };
    past.sample.add(item.hours);
    past.sum += item.hours;
    past.last = item.hours;
    this.#times.set(item.task, past);
  }
}
