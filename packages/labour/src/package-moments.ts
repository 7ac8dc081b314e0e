import type { Hours } from './hours.ts';
import type { PackageEstimate } from './package.ts';
import type { PackageItem } from './package-item.ts';
import { hoursQuantile } from './student.ts';

/** Mean, variance and third central moment of a sum. */
type Moments = { readonly mean: number; readonly variance: number; readonly third: number };

/** exp(cᵢⱼ) − 1 for the covariances of ln hours, row-major. */
function excesses(items: readonly PackageItem[]): Float64Array {
  const n = items.length;
  const places = new Map<string, number>();
  for (const { shared = [] } of items) {
    for (const { component } of shared) {
      if (!places.has(component)) places.set(component, places.size);
    }
  }
  const width = places.size;
  const loadings = new Float64Array(n * width);
  for (const [i, { shared = [] }] of items.entries()) {
    for (const { component, loading } of shared) {
      loadings[i * width + places.get(component)!]! += loading;
    }
  }
  const excess = new Float64Array(n * n);
  for (const [i, { predictive, event }] of items.entries()) {
    if (predictive.df !== Infinity || event !== undefined) {
      throw new RangeError(
        'A sum has moments of this kind only for items that are certain to come and whose df is Infinity; simulate it instead.',
      );
    }
    for (let j = 0; j < i; j += 1) {
      let covariance = 0;
      for (let k = 0; k < width; k += 1) {
        covariance += loadings[i * width + k]! * loadings[j * width + k]!;
      }
      excess[i * n + j] = Math.expm1(covariance);
      excess[j * n + i] = excess[i * n + j]!;
    }
    excess[i * n + i] = Math.expm1(predictive.scale ** 2);
  }
  return excess;
}

/**
 * Exact moments of the sum, with Eᵢ = exp(μᵢ + σᵢ²/2) and Dᵢⱼ = exp(cᵢⱼ) − 1:
 *
 *     E Σ = Σ Eᵢ,  Var = Σᵢⱼ EᵢEⱼDᵢⱼ,  third central = Σᵢⱼₖ EᵢEⱼEₖDᵢⱼDᵢₖDⱼₖ + 3·Σᵢ Eᵢ·(Σⱼ EⱼDᵢⱼ)²
 *
 * from E XᵢXⱼXₖ = EᵢEⱼEₖ·exp(cᵢⱼ + cᵢₖ + cⱼₖ) for jointly log-normal terms.
 */
function momentsOf(items: readonly PackageItem[]): Moments {
  const n = items.length;
  const d = excesses(items);
  const e = Float64Array.from(items, ({ predictive: { location, scale } }) =>
    Math.exp(location + scale ** 2 / 2),
  );
  let [mean, variance, third] = [0, 0, 0];
  const weighed = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let row = 0;
    for (let k = 0; k < n; k += 1) {
      weighed[k] = e[k]! * d[i * n + k]!;
      row += weighed[k]!;
    }
    mean += e[i]!;
    variance += e[i]! * row;
    third += 3 * e[i]! * row * row;
    for (let j = 0; j <= i; j += 1) {
      let sum = 0;
      for (let k = 0; k < n; k += 1) sum += weighed[k]! * d[j * n + k]!;
      third += (i === j ? 1 : 2) * e[i]! * e[j]! * d[i * n + j]! * sum;
    }
  }
  return { mean, variance, third };
}

/**
 * The ω = exp(σ²) at which a log-normal has the given skewness: (ω + 2)·√(ω − 1) = γ. With ω = t + 1/t − 1 it is
 * t³ = 1 + γ²/2 ± γ·√(1 + γ²/4), in closed form (Johnson, Kotz & Balakrishnan 1994, chapter 14; from memory, and checked by
 * the tests). It loses digits where γ is small, so a few Newton steps follow.
 */
function spreadOfSkewness(skewness: number): number {
  const half = skewness ** 2 / 2;
  const t = Math.cbrt(1 + half + skewness * Math.sqrt(1 + half / 2));
  let excess = Math.max(t + 1 / t - 2, (skewness / 3) ** 2 / 2);
  for (let step = 0; step < 4; step += 1) {
    const root = Math.sqrt(excess);
    const away = (excess + 3) * root - skewness;
    excess = Math.max(excess - away / (root + (excess + 3) / (2 * root)), excess / 4);
  }
  return excess;
}

/**
 * Sum of items without simulation: the shifted log-normal that has the sum's mean, variance and skewness, all exact. The
 * same in any order, of the same digits always, and some ten times as fast as 20,000 draws; the tests hold it against them.
 *
 * @throws RangeError for items of an event, or whose df is finite: those need `sumOfItems`
 */
export function quickSumOfItems(items: readonly PackageItem[]): PackageEstimate {
  const plain = {
    mean: items.reduce((sum, { mean }) => sum + mean, 0) as Hours,
    sumOfP80: items.reduce((sum, { p80 }) => sum + p80, 0) as Hours,
  };
  const { mean, variance, third } = momentsOf(items);
  const certain = mean as Hours;
  if (!(variance > 0)) {
    return { p10: certain, p50: certain, p80: certain, p90: certain, ...plain };
  }
  const excess = spreadOfSkewness(third / variance ** 1.5);
  const location = Math.log(variance / (excess * (1 + excess))) / 2;
  const shift = mean - Math.exp(location) * Math.sqrt(1 + excess);
  const scale = Math.sqrt(Math.log1p(excess));
  const quantile = (p: number) =>
    (shift + hoursQuantile({ location, scale, df: Infinity }, p)) as Hours;
  return {
    p10: quantile(0.1),
    p50: quantile(0.5),
    p80: quantile(0.8),
    p90: quantile(0.9),
    ...plain,
  };
}
