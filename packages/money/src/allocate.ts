import { type Minor, minor } from './amount.ts';
import { exact, toWhole } from './exact.ts';

/**
 * Shares an amount out by weight so that the shares add to it exactly.
 *
 * Method: the largest remainder (Hamilton's): each share is rounded towards zero and the units left
 * over go, one each, to the largest remainders, the earlier one first where they are equal.
 *
 * @param weights plain decimals, each 0 or more and not all 0; a weight of 0 gets nothing.
 * @throws RangeError when there are no weights, one is negative or all are 0.
 * @example allocate(minor(100n), ['1', '1', '1']) // → [34n, 33n, 33n]
 * @example allocate(minor(-5n), ['3', '7']) // → [-2n, -3n]
 */
export function allocate(total: Minor, weights: readonly string[]): Minor[] {
  const decimals = weights.map((weight) => exact(weight, 'weight'));
  const negative = decimals.find((weight) => weight.lt(0));
  if (negative !== undefined) {
    throw new RangeError(`Cannot share by a weight of ${negative.toFixed()}: give 0 or more`);
  }
  const places = Math.max(0, ...decimals.map((weight) => weight.decimalPlaces()));
  const whole = decimals.map((weight) => toWhole(weight, places));
  const sum = whole.reduce((all, weight) => all + weight, 0n);
  if (sum === 0n) {
    throw new RangeError(
      `Cannot share ${total} by [${weights.join(', ')}]: give at least one weight above 0`,
    );
  }
  const size = total < 0n ? -total : total;
  const shares = whole.map((weight) => (size * weight) / sum);
  const left = Number(size - shares.reduce((all, share) => all + share, 0n));
  const byRemainder = whole
    .map((weight, index) => ({ index, remainder: (size * weight) % sum }))
    .sort((a, b) =>
      a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1,
    );
  for (const { index } of byRemainder.slice(0, left)) {
    shares[index] = (shares[index] ?? 0n) + 1n;
  }
  return shares.map((share) => minor(total < 0n ? -share : share));
}
