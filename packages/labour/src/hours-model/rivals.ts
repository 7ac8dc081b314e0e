import { quantileOfSorted } from '../sample-quantile.ts';
import type { DoneItem } from './coding.ts';

/** A plain way to say how long something takes, for the model to be held against. */
export const RIVALS = ['standard', 'mean', 'last', 'median', 'own quantiles'] as const;
export type Rival = (typeof RIVALS)[number];

/** Quantiles of hours as a rival states them. */
export type RivalForecast = {
  readonly p10: number;
  readonly p50: number;
  readonly p80: number;
  readonly p90: number;
};

/** Past errors that a rival needs before it may state quantiles. */
const FEWEST = 10;

/** Sorted numbers that grow one by one. */
class Sorted {
  readonly values: number[] = [];

  add(value: number): void {
    let low = 0;
    let high = this.values.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.values[middle]! < value) low = middle + 1;
      else high = middle;
    }
    this.values.splice(low, 0, value);
  }
}

/**
 * Five plain rivals, which see the same past as the model: the standard time, and the mean, the last and the median of the
 * task's own past times, each turned into quantiles by how far it was off before (actual over stated, all tasks together);
 * and the plain quantiles of the task's own past times. Without a standard, or a past, a rival says nothing.
 */
export class Rivals {
  readonly #times = new Map<string, { sorted: Sorted; sum: number; last: number }>();
  readonly #ratios = new Map<Rival, Sorted>(RIVALS.map((rival) => [rival, new Sorted()]));

  #point(rival: Rival, { task, standardHours }: DoneItem): number | undefined {
    if (rival === 'standard') return standardHours;
    const past = this.#times.get(task);
    if (past === undefined) return undefined;
    const { values } = past.sorted;
    if (rival === 'mean') return past.sum / values.length;
    if (rival === 'last') return past.last;
    return quantileOfSorted(values, 0.5);
  }

  forecast(rival: Rival, item: DoneItem): RivalForecast | undefined {
    const stated = this.#point(rival, item);
    if (stated === undefined) return undefined;
    const own = rival === 'own quantiles';
    const from = own ? this.#times.get(item.task)!.sorted.values : this.#ratios.get(rival)!.values;
    if (from.length < (own ? 2 : FEWEST)) return undefined;
    const at = (p: number) => quantileOfSorted(from, p) * (own ? 1 : stated);
    return { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90: at(0.9) };
  }

  /** Takes an item into the past. A lower bound is no time, and stays out. */
  learn(item: DoneItem): void {
    if (item.censored) return;
    for (const rival of RIVALS) {
      const stated = this.#point(rival, item);
      if (stated !== undefined) this.#ratios.get(rival)!.add(item.hours / stated);
    }
    const past = this.#times.get(item.task) ?? { sorted: new Sorted(), sum: 0, last: 0 };
    past.sorted.add(item.hours);
    past.sum += item.hours;
    past.last = item.hours;
    this.#times.set(item.task, past);
  }
}
