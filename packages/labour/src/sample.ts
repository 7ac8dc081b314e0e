import { quantileOfSorted } from './sample-quantile.ts';

/** What the scores need of the whole sample. */
type Added = {
  /** One of its middle numbers; sums are taken about it, so that equal numbers leave exactly nothing. */
  readonly middle: number;
  /** Sum of the first i numbers at i. */
  readonly sums: Float64Array;
  /** ½·mean|X − X′|, all pairs counted, a number with itself among them. */
  readonly halfSpread: number;
};

function added(sorted: readonly number[]): Added {
  const n = sorted.length;
  const middle = sorted[n >> 1]!;
  const sums = new Float64Array(n + 1);
  let pairs = 0;
  for (const [i, value] of sorted.entries()) {
    sums[i + 1] = sums[i]! + (value - middle);
    // Σ over i < j of (x_j − x_i): each number is the upper of i pairs and the lower of n − 1 − i.
    pairs += (2 * i + 1 - n) * (value - middle);
  }
  return { middle, sums, halfSpread: pairs / n ** 2 };
}

/**
 * Numbers that grow one by one, and as a forecast: each is as likely as every other.
 *
 * @example Sample.of([1.2, 1.5, 2, 3.7, 5.1]).crps(2.4) // 0.5
 */
export class Sample {
  readonly #sorted: number[] = [];
  #added: Added | undefined;

  /** @throws RangeError for a number that is not finite */
  static of(values: readonly number[]): Sample {
    const sample = new Sample();
    for (const value of values) sample.add(value);
    return sample;
  }

  get size(): number {
    return this.#sorted.length;
  }

  /** @throws RangeError for a number that is not finite */
  add(value: number): void {
    if (!Number.isFinite(value))
      throw new RangeError(`A sample holds finite numbers; got ${value}.`);
    this.#sorted.splice(this.#under(value), 0, value);
    this.#added = undefined;
  }

  /** @param p probability, 0 to 1 */
  quantile(p: number): number {
    return quantileOfSorted(this.#sorted, p);
  }

  /**
   * Continuous ranked probability score of the sample as a forecast, in the unit of `actual`; smaller is better. Exact:
   *
   *     mean|X − y| − ½·mean|X − X′|      (Gneiting & Raftery 2007, JASA 102, eq. 21)
   *
   * O(log n) once the sample is added up, which is O(n) after it has grown.
   *
   * @throws RangeError for an empty sample, or an actual value that is not finite
   */
  crps(actual: number): number {
    const { middle, sums, halfSpread } = this.#whole(actual);
    const n = this.#sorted.length;
    const y = actual - middle;
    const under = this.#under(actual);
    const off = (2 * (under * y - sums[under]!) + sums[n]! - n * y) / n;
    // Rounding must not make a forecast better than perfect.
    return Math.max(0, off - halfSpread);
  }

  /**
   * Probability integral transform. The distribution F of a sample has jumps, so what was clocked has a stretch and no point:
   * from F(y−), the share under it, to F(y), the share not over it. The randomised transform is even between the two.
   *
   * @throws RangeError as `crps`
   */
  pit(actual: number): { readonly from: number; readonly to: number } {
    this.#whole(actual);
    const n = this.#sorted.length;
    return { from: this.#under(actual) / n, to: this.#notOver(actual) / n };
  }

  #whole(actual: number): Added {
    if (this.#sorted.length === 0)
      throw new RangeError('A sample without numbers forecasts nothing.');
    if (!Number.isFinite(actual)) throw new RangeError(`Actual must be finite; got ${actual}.`);
    this.#added ??= added(this.#sorted);
    return this.#added;
  }

  /** How many are under it. */
  #under(value: number): number {
    return this.#first((one) => one >= value);
  }

  #notOver(value: number): number {
    return this.#first((one) => one > value);
  }

  /** Index of the first that is so, where all after it are. */
  #first(is: (one: number) => boolean): number {
    let low = 0;
    let high = this.#sorted.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (is(this.#sorted[middle]!)) high = middle;
      else low = middle + 1;
    }
    return low;
  }
}
