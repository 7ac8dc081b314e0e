import betainc from '@stdlib/math-base-special-betainc';
import betaln from '@stdlib/math-base-special-betaln';

/** A beta distribution with its share of a mixture. */
export type BetaPart = { readonly weight: number; readonly a: number; readonly b: number };

/** ln of the beta function. */
export const lnBeta = (a: number, b: number): number => betaln(a, b);

/** Probability that a mixture of beta distributions, weights adding to 1, stays under x. */
export function mixtureCdf(parts: readonly BetaPart[], x: number): number {
  let sum = 0;
  for (const { weight, a, b } of parts) sum += weight * betainc(x, a, b);
  return sum;
}

/** Density of a mixture of beta distributions, strictly between 0 and 1. */
function mixtureDensity(parts: readonly BetaPart[], x: number): number {
  const [ln, lnRest] = [Math.log(x), Math.log1p(-x)];
  let sum = 0;
  for (const { weight, a, b } of parts) {
    sum += weight * Math.exp((a - 1) * ln + (b - 1) * lnRest - lnBeta(a, b));
  }
  return sum;
}

/** A quantile is known when its probability is. */
const SETTLED = 1e-7;

/**
 * Quantile of a mixture of beta distributions: Newton steps on ln x, halving what is left where one would leave it.
 *
 * @param p strictly between 0 and 1
 * @example mixtureQuantile([{ weight: 1, a: 1, b: 1 }], 0.25) // → 0.25
 */
export function mixtureQuantile(parts: readonly BetaPart[], p: number): number {
  let low = 0;
  let high = 1;
  let x = parts.reduce((sum, { weight, a, b }) => sum + (weight * a) / (a + b), 0);
  for (let step = 0; step < 60; step += 1) {
    const away = mixtureCdf(parts, x) - p;
    if (Math.abs(away) < SETTLED) break;
    if (away < 0) low = x;
    else high = x;
    const next = x * Math.exp(-away / (x * mixtureDensity(parts, x)));
    x = next > low && next < high ? next : (low + high) / 2;
    if (x < SETTLED ** 2) break;
  }
  return x;
}
