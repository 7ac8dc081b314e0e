import { packageItems } from '../hours-model/package-of.ts';
import type { HoursEstimate } from '../hours-model/predictor.ts';
import { drawItems, drawsOf } from '../package-draws.ts';
import type { PackageItem, SimulationOptions } from '../package-item.ts';
import { quantileOfSorted } from '../sample-quantile.ts';

/** An item of a package with what its parts cost, in any unit of money; 0 unless said. */
export type PricedItem = {
  readonly estimate: HoursEstimate;
  readonly parts?: number | undefined;
  /** Its labour and parts together cost no more than this, whatever it takes: a price not to be exceeded. */
  readonly atMost?: number | undefined;
  /** Money for an hour of it, 0 or more; left out: the rate of the whole. */
  readonly rate?: number | undefined;
  /** Hours that are paid for so many worked, where a shop rounds them; 0 for 0, and never falling. Left out: as worked. */
  readonly billed?: ((hours: number) => number) | undefined;
};

/** An item that is only done when something is found. Items of one finding come together. */
export type LikelyItem = PricedItem & {
  readonly finding: string;
  /** Probability that the finding turns up, 0 to 1. */
  readonly probability: number;
};

/** How a sum is distributed. The mean is the lognormal plug-in mean, times the probability; of what has a limit or is rounded, that of the draws. */
export type Spread = Readonly<Record<'p10' | 'p50' | 'mean' | 'p80' | 'p90', number>>;

/** What is firm, what may come, and both together; the last is not the sum of the first two's quantiles. */
export type FirmAndLikely = {
  readonly firm: Spread;
  readonly findings: Spread;
  readonly all: Spread;
};

export type PackageWithFindings = {
  readonly hours: FirmAndLikely;
  /** Labour at the rate, and parts, in the unit of both. */
  readonly cost: FirmAndLikely;
};

type Priced = {
  readonly item: PackageItem;
  readonly parts: number;
  readonly atMost: number;
  readonly rate: number | undefined;
  readonly billed: ((hours: number) => number) | undefined;
  readonly likely: boolean;
};

const spreadOf = (drawn: Float64Array, mean: number): Spread => {
  const sorted = drawn.sort();
  const quantile = (p: number) => quantileOfSorted(sorted, p);
  return { p10: quantile(0.1), p50: quantile(0.5), mean, p80: quantile(0.8), p90: quantile(0.9) };
};

const NOTHING: Spread = { p10: 0, p50: 0, mean: 0, p80: 0, p90: 0 };

/** Sums of one measure over the draws: of the firm items and of the likely ones. */
class Sums {
  readonly #of: readonly [Float64Array, Float64Array];
  readonly #means: [number, number] = [0, 0];

  constructor(draws: number) {
    this.#of = [new Float64Array(draws), new Float64Array(draws)];
  }

  /** Adds draws of one item, the first of them draw `from`. */
  add(likely: boolean, values: Float64Array, from: number): void {
    const sums = this.#of[likely ? 1 : 0];
    for (let i = 0; i < values.length; i += 1) sums[from + i]! += values[i]!;
  }

  addMean(likely: boolean, mean: number): void {
    this.#means[likely ? 1 : 0] += mean;
  }

  /** @param perhaps whether anything is only likely; else there is one sum to put in order */
  spreads(perhaps: boolean): FirmAndLikely {
    const [firm, findings] = this.#of;
    const [ofFirm, ofFindings] = this.#means;
    if (!perhaps) {
      const spread = spreadOf(firm, ofFirm);
      return { firm: spread, findings: NOTHING, all: spread };
    }
    const all = firm.map((value, i) => value + findings[i]!);
    return {
      firm: spreadOf(firm, ofFirm),
      findings: spreadOf(findings, ofFindings),
      all: spreadOf(all, ofFirm + ofFindings),
    };
  }
}

function pricedItems(firm: readonly PricedItem[], likely: readonly LikelyItem[]): Priced[] {
  const items = packageItems([...firm, ...likely].map(({ estimate }) => estimate));
  return items.map((item, index) => {
    const found = likely[index - firm.length];
    const { parts = 0, atMost = Infinity, rate, billed } = found ?? firm[index]!;
    if (!(parts >= 0 && parts < Infinity)) {
      throw new RangeError(`What parts cost must be a finite number of 0 or more; got ${parts}.`);
    }
    if (!(atMost >= 0)) {
      throw new RangeError(`A price not to be exceeded must be 0 or more; got ${atMost}.`);
    }
    if (rate !== undefined && !(rate >= 0 && rate < Infinity)) {
      throw new RangeError(`The rate must be a finite number of 0 or more; got ${rate}.`);
    }
    if (found === undefined) return { item, parts, atMost, rate, billed, likely: false };
    const event = { name: found.finding, probability: found.probability };
    return { item: { ...item, event }, parts, atMost, rate, billed, likely: true };
  });
}

/**
 * A package with what is likely to be found in it, in one seeded simulation: the same mechanic, tail and place slow the
 * firm items and the found ones alike, and a finding comes with all of its items or not at all.
 *
 * "Nine in ten should come out under" is `cost.all.p90`.
 *
 * @param rate money for an hour, 0 or more, of items that do not say their own
 * @throws RangeError for a rate, parts, limits or probabilities out of range, or one finding with two probabilities
 */
export function packageWithFindings(
  firm: readonly PricedItem[],
  likely: readonly LikelyItem[],
  { rate, ...options }: SimulationOptions & { readonly rate: number },
): PackageWithFindings {
  if (!(rate >= 0 && rate < Infinity)) {
    throw new RangeError(`The rate must be a finite number of 0 or more; got ${rate}.`);
  }
  const priced = pricedItems(firm, likely);
  const draws = drawsOf(options);
  const hours = new Sums(draws);
  const cost = new Sums(draws);
  const plain = ({ atMost, billed }: Priced) => atMost === Infinity && billed === undefined;
  for (const one of priced) {
    const { item, parts, likely: perhaps, rate: own = rate } = one;
    const probability = item.event?.probability ?? 1;
    hours.addMean(perhaps, probability * item.mean);
    if (plain(one)) cost.addMean(perhaps, probability * (own * item.mean + parts));
  }
  drawItems(
    priced.map(({ item }) => item),
    options,
    (index, drawn, from) => {
      const { parts, atMost, likely: perhaps, rate: own = rate, billed } = priced[index]!;
      hours.add(perhaps, drawn, from);
      // Nobody pays for the time of what is sold at a price of its own.
      if (own === 0 && parts === 0) return;
      if (billed !== undefined)
        for (let i = 0; i < drawn.length; i += 1) drawn[i] = billed(drawn[i]!);
      let total = 0;
      for (let i = 0; i < drawn.length; i += 1) {
        const costs = drawn[i]! > 0 ? Math.min(own * drawn[i]! + parts, atMost) : 0;
        drawn[i] = costs;
        total += costs;
      }
      cost.add(perhaps, drawn, from);
      if (!plain(priced[index]!)) cost.addMean(perhaps, total / draws);
    },
  );
  const perhaps = likely.length > 0;
  return { hours: hours.spreads(perhaps), cost: cost.spreads(perhaps) };
}
