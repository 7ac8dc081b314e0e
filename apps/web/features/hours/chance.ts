/**
 * How many of n come out "within" by chance alone, 19 times in 20, where each does with probability p:
 * the central 95 % of the binomial distribution.
 *
 *     P(K = k) = n!/(k!(n − k)!) · pᵏ(1 − p)ⁿ⁻ᵏ;  low: the first k with P(K ≤ k) > 0.025;  high: with P(K ≤ k) ≥ 0.975
 *
 * @param n how many, a whole number from 1 to 1000
 * @param p from 0 to 1, both apart
 * @throws RangeError for anything else
 * @example chanceRange(10, 0.8) // → { low: 5, high: 10 }
 */
export function chanceRange(n: number, p: number): { low: number; high: number } {
  if (!Number.isInteger(n) || n < 1 || n > 1000) {
    throw new RangeError(`Cannot say what chance does to ${n}: need a whole number from 1 to 1000`);
  }
  if (!(p > 0 && p < 1)) {
    throw new RangeError(`Cannot say what chance does at ${p}: need a probability between 0 and 1`);
  }
  // By logarithms: (1 − p)ⁿ itself is nothing to a computer long before n is 1000.
  let logTerm = n * Math.log(1 - p);
  let sum = Math.exp(logTerm);
  let low = sum > 0.025 ? 0 : -1;
  for (let k = 1; k <= n; k += 1) {
    if (sum >= 0.975) return { low, high: k - 1 };
    logTerm += Math.log(((n - k + 1) / k) * (p / (1 - p)));
    sum += Math.exp(logTerm);
    if (low < 0 && sum > 0.025) low = k;
  }
  return { low, high: n };
}
