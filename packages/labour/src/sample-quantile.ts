/**
 * Sample quantile of sorted values by linear interpolation between order statistics: definition 7 of Hyndman & Fan
 * 1996, The American Statistician 50(4), which R and numpy take unless told otherwise.
 *
 * @param sorted ascending, at least one value
 * @param p probability, 0 to 1
 */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
  const place = p * (sorted.length - 1);
  const lower = sorted[Math.floor(place)] ?? 0;
  const upper = sorted[Math.ceil(place)] ?? 0;
  return lower === upper ? lower : lower + (place % 1) * (upper - lower);
}
