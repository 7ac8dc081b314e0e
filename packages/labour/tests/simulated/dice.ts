import { gamma, seededBits, standardNormal, uniform } from '../../src/random.ts';

/** Draws that follow from a seed. */
export type Dice = {
  /** Even between 0 and 1, or between two numbers. */
  readonly even: (from?: number, to?: number) => number;
  /** Even on the scale of logarithms. */
  readonly scaled: (from: number, to: number) => number;
  readonly normal: (mean?: number, sd?: number) => number;
  /** Mean 0, s.d. 1, and a tail to the right: skewness 2/√shape. */
  readonly skewed: (shape: number) => number;
  readonly below: (count: number) => number;
  readonly chance: (p: number) => boolean;
  readonly one: <Thing>(things: readonly Thing[]) => Thing;
};

export function diceOf(seed: number): Dice {
  const bits = seededBits(seed);
  const even = (from = 0, to = 1) => from + (to - from) * uniform(bits);
  const below = (count: number) => Math.floor(uniform(bits) * count);
  return {
    even,
    scaled: (from, to) => Math.exp(even(Math.log(from), Math.log(to))),
    normal: (mean = 0, sd = 1) => mean + sd * standardNormal(bits),
    skewed: (shape) => (gamma(shape, bits) - shape) / Math.sqrt(shape),
    below,
    chance: (p) => uniform(bits) < p,
    one: (things) => things[below(things.length)]!,
  };
}
