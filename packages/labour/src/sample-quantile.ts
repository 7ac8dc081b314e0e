/**
 * Sample quantile with linear interpolation between order statistics (type 7 of Hyndman & Fan 1996).
 *
 * @param sorted ascending, at least one value
 * @param p probability, 0 to 1
 */
export function sampleQuantile(sorted: ArrayLike<number>, p: number): number {
  const place = p * (sorted.length - 1);
  const lower = sorted[Math.floor(place)] ?? 0;
  const upper = sorted[Math.ceil(place)] ?? 0;
  return lower === upper ? lower : lower + (place % 1) * (upper - lower);
}
