import normal from '@stdlib/stats-base-dists-normal';

function mustBe(name: string, value: number, right: boolean, needed: string): void {
  if (!right) throw new RangeError(`${name} must be ${needed}; got ${value}.`);
}

/**
 * Pinball loss: what a stated quantile cost, in the unit of `actual`. Least on average at the true quantile.
 *
 *     τ·(y − q) where y ≥ q, (1 − τ)·(q − y) where y < q
 *
 * Koenker & Bassett 1978, Econometrica 46(1).
 *
 * @param level τ, strictly between 0 and 1
 * @throws RangeError outside those ranges
 * @example pinballLoss(10, 8, 0.8) // 1.6
 */
export function pinballLoss(actual: number, quantile: number, level: number): number {
  mustBe('Level', level, level > 0 && level < 1, 'between 0 and 1');
  mustBe('Actual', actual, Number.isFinite(actual), 'finite');
  mustBe('Quantile', quantile, Number.isFinite(quantile), 'finite');
  return actual >= quantile ? level * (actual - quantile) : (1 - level) * (quantile - actual);
}

/**
 * Continuous ranked probability score of a normal forecast, in the unit of `actual`; smaller is better, 0 is perfect.
 *
 *     σ·(z·(2Φ(z) − 1) + 2φ(z) − 1/√π),  z = (y − μ)/σ      (Gneiting & Raftery 2007, JASA 102, eq. 21)
 *
 * @throws RangeError for a spread below 0 or numbers that are not finite
 */
export function crpsNormal(actual: number, mean: number, sd: number): number {
  mustBe('Spread', sd, sd >= 0 && sd < Infinity, 'finite and 0 or more');
  mustBe('Actual', actual, Number.isFinite(actual), 'finite');
  mustBe('Mean', mean, Number.isFinite(mean), 'finite');
  if (sd === 0) return Math.abs(actual - mean);
  const z = (actual - mean) / sd;
  return (
    sd * (z * (2 * normal.cdf(z, 0, 1) - 1) + 2 * normal.pdf(z, 0, 1) - 1 / Math.sqrt(Math.PI))
  );
}

/**
 * Continuous ranked probability score of a log-normal forecast of hours, in hours.
 *
 *     y·(2Φ(z) − 1) − 2·exp(μ + σ²/2)·(Φ(z − σ) + Φ(σ/√2) − 1),  z = (ln y − μ)/σ
 *
 * Baran & Lerch 2015, Q. J. R. Meteorol. Soc. 141 (their closed form).
 *
 * @param actual hours, above 0
 * @throws RangeError for hours that are not above 0, a spread below 0, or numbers that are not finite
 */
export function crpsLogNormal(actual: number, location: number, scale: number): number {
  mustBe('Actual hours', actual, actual > 0 && actual < Infinity, 'finite and above 0');
  mustBe('Spread', scale, scale >= 0 && scale < Infinity, 'finite and 0 or more');
  mustBe('Location', location, Number.isFinite(location), 'finite');
  if (scale === 0) return Math.abs(actual - Math.exp(location));
  const z = (Math.log(actual) - location) / scale;
  const upper = normal.cdf(z - scale, 0, 1) + normal.cdf(scale / Math.SQRT2, 0, 1) - 1;
  return actual * (2 * normal.cdf(z, 0, 1) - 1) - 2 * Math.exp(location + scale ** 2 / 2) * upper;
}

/** Probability integral transform: where in its forecast the actual value fell, 0 to 1. Even when forecasts are honest. */
export function pitLogNormal(actual: number, location: number, scale: number): number {
  mustBe('Actual hours', actual, actual > 0 && actual < Infinity, 'finite and above 0');
  mustBe('Spread', scale, scale > 0 && scale < Infinity, 'finite and above 0');
  return normal.cdf((Math.log(actual) - location) / scale, 0, 1);
}
