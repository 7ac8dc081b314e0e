import { RIVALS, type Rival } from '../../src/index.ts';
import type { ShopScore } from './score.ts';

export type Summary = {
  readonly shops: number;
  readonly items: number;
  readonly coverage: number;
  /** Shops in five parts of equal number, by the length of their history. */
  readonly fifths: readonly {
    readonly from: number;
    readonly to: number;
    readonly coverage: number;
  }[];
  readonly under: Readonly<Record<'p10' | 'p50' | 'p80' | 'p90', number>>;
  /** Mean over shops of our loss at P80 less the rival's, hours an item, with its 95 % interval. */
  readonly differences: readonly {
    readonly rival: Rival;
    readonly mean: number;
    readonly from: number;
    readonly to: number;
    readonly shopsWon: number;
  }[];
  readonly accessCovered: number;
  readonly accessLevels: number;
};

const sum = <Thing>(things: readonly Thing[], of: (thing: Thing) => number): number =>
  things.reduce((total, thing) => total + of(thing), 0);

const coverageOf = (scores: readonly ShopScore[]): number =>
  sum(scores, ({ inside }) => inside) / sum(scores, ({ items }) => items);

/** What the shops say together. */
export function summaryOf(scores: readonly ShopScore[]): Summary {
  const items = sum(scores, (one) => one.items);
  const bySize = scores.toSorted((a, b) => a.past - b.past);
  const share = (p: keyof ShopScore['under']) => sum(scores, ({ under }) => under[p]) / items;
  const levels = sum(scores, ({ access }) => access.levels);
  return {
    shops: scores.length,
    items,
    coverage: coverageOf(scores),
    fifths: [0, 1, 2, 3, 4].map((fifth) => {
      const some = bySize.slice(
        Math.floor((fifth * scores.length) / 5),
        Math.floor(((fifth + 1) * scores.length) / 5),
      );
      return { from: some[0]!.past, to: some.at(-1)!.past, coverage: coverageOf(some) };
    }),
    under: { p10: share('p10'), p50: share('p50'), p80: share('p80'), p90: share('p90') },
    differences: RIVALS.map((rival) => {
      const differences = scores.flatMap((one) => one.differences[rival] ?? []);
      const n = differences.length;
      const mean = sum(differences, (value) => value) / n;
      const reach =
        1.959963984540054 *
        Math.sqrt(sum(differences, (value) => (value - mean) ** 2) / (n - 1) / n);
      const shopsWon = differences.filter((value) => value < 0).length;
      return { rival, mean, from: mean - reach, to: mean + reach, shopsWon };
    }),
    accessCovered: sum(scores, ({ access }) => access.covered) / levels,
    accessLevels: levels,
  };
}
