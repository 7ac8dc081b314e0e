import { hours } from '../hours.ts';
import type { EffectPrior } from '../mixed/problem.ts';
import { type CodingTables, codeItem, type DoneItem, FACTORS, type Factor } from './coding.ts';
import type { ModelRow } from './hours-model.ts';

/** Names to numbers in order of appearance, with a count each. */
class Index {
  readonly names: string[] = [];
  readonly counts: number[] = [];
  readonly #of = new Map<string, number>();

  add(name: string, counted: boolean): number {
    let index = this.#of.get(name);
    if (index === undefined) {
      index = this.names.length;
      this.#of.set(name, index);
      this.names.push(name);
      this.counts.push(0);
    }
    if (counted) this.counts[index]! += 1;
    return index;
  }
}

/** Items in the model's terms. */
export type Coded = {
  readonly y: Float64Array;
  readonly censored: readonly boolean[];
  readonly columns: Index;
  readonly effects: readonly EffectPrior[];
  readonly levels: ReadonlyMap<Factor, Index>;
  readonly rows: readonly Pick<ModelRow, 'x' | 'z'>[];
  readonly factors: readonly Factor[];
};

/** Geometric middle of the finished items; undefined when there are none. */
export function medianOf(items: readonly DoneItem[]): number | undefined {
  const finished = items
    .filter(({ censored }) => !censored)
    .map((item) => item.hours)
    .sort((a, b) => a - b);
  if (finished.length === 0) return undefined;
  const upper = finished[Math.floor(finished.length / 2)]!;
  const lower = finished[Math.ceil(finished.length / 2) - 1]!;
  return Math.sqrt(lower * upper);
}

/** Codes every item; names become numbers in order of appearance. */
export function codeAll(items: readonly DoneItem[], tables: CodingTables): Coded {
  const columns = new Index();
  const effects: EffectPrior[] = [];
  const levels = new Map<Factor, Index>(FACTORS.map((factor) => [factor, new Index()]));
  const y = new Float64Array(items.length);
  const used = new Set<Factor>();
  const rows = items.map((item, row) => {
    const coded = codeItem(item, tables);
    y[row] = Math.log(hours(item.hours)) - coded.offset;
    const x: number[] = [];
    for (const { name, value, prior } of coded.fixed) {
      const index = columns.add(name, !item.censored);
      effects[index] ??= prior;
      x.push(index, value);
    }
    const z: number[] = [];
    for (const { factor, level, share } of coded.levels) {
      used.add(factor);
      z.push(FACTORS.indexOf(factor), levels.get(factor)!.add(level, !item.censored), share);
    }
    return { x, z };
  });
  const factors = FACTORS.filter((factor) => used.has(factor));
  const numberOf = FACTORS.map((factor) => factors.indexOf(factor));
  for (const { z } of rows) {
    for (let k = 0; k < z.length; k += 3) z[k] = numberOf[z[k]!]!;
  }
  return {
    y,
    censored: items.map(({ censored }) => censored),
    columns,
    effects,
    levels,
    factors,
    rows,
  };
}

/** The standard time that each task was last given: it holds for its items that do not say one. */
export function standardsOf(items: readonly DoneItem[]): Map<string, number> {
  const standards = new Map<string, number>();
  for (const { task, standardHours } of items) {
    if (standardHours !== undefined) standards.set(task, standardHours);
  }
  return standards;
}
