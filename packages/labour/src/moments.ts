import type { PackageItem } from './package-item.ts';

/**
 * Moments of a sum of lognormals, exact, and the one lognormal that has the same two moments
 * (Fenton 1960, after Wilkinson; IRE Trans. Commun. Syst. 8(1)). For items whose df is Infinity; it is
 * the yardstick that the simulation is held against.
 *
 *     E = Σ exp(μᵢ + σᵢ²/2),  Var = Σᵢⱼ EᵢEⱼ(exp(cᵢⱼ) − 1),  cᵢⱼ = Σₖ loadingᵢₖ·loadingⱼₖ, cᵢᵢ = σᵢ²
 *     σ² = ln(1 + Var/E²),  μ = ln E − σ²/2
 *
 * @returns mean and variance in hours and hours², location and scale of ln hours
 * @throws RangeError for no items, or for one whose df is finite: its sum has no moments
 * @example
 * sumMoments([{ predictive: { location: 0, scale: 0, df: Infinity }, mean: 1, p80: 1 }]).mean // 1
 */
export function sumMoments(items: readonly PackageItem[]): {
  readonly mean: number;
  readonly variance: number;
  readonly location: number;
  readonly scale: number;
} {
  if (items.length === 0) throw new RangeError('The moments of a sum need at least one item.');
  const parts = items.map(({ predictive: { location, scale, df }, shared = [] }) => {
    if (df !== Infinity) {
      throw new RangeError(`A sum has moments only for df = Infinity; got df ${df}.`);
    }
    const loadings = new Map(shared.map(({ component, loading }) => [component, loading]));
    return { mean: Math.exp(location + scale ** 2 / 2), scale, loadings };
  });
  const mean = parts.reduce((sum, part) => sum + part.mean, 0);
  let variance = 0;
  for (const one of parts) {
    for (const other of parts) {
      let covariance = one === other ? one.scale ** 2 : 0;
      if (one !== other) {
        for (const [component, loading] of one.loadings) {
          covariance += loading * (other.loadings.get(component) ?? 0);
        }
      }
      variance += one.mean * other.mean * Math.expm1(covariance);
    }
  }
  const squared = Math.log1p(variance / mean ** 2);
  return { mean, variance, location: Math.log(mean) - squared / 2, scale: Math.sqrt(squared) };
}
