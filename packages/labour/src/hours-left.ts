import normal from '@stdlib/stats-base-dists-normal';
import student from '@stdlib/stats-base-dists-t';
import type { Predictive } from './student.ts';

/** Beyond this many scales a distribution has no digits left. */
const FARTHEST = 37;
/** Below this chance the library's normal quantile loses its digits. */
const SMALL = 1e-12;

/** The chance that a standard Student-t lies above z; df Infinity: a standard normal. */
const above = (z: number, df: number): number =>
  df === Infinity ? normal.cdf(-z, 0, 1) : student.cdf(-z, df);

/** The z above which such a chance lies. */
function withAbove(chance: number, df: number): number {
  if (!(chance > 0)) return FARTHEST;
  if (df === Infinity)
    return chance > SMALL ? -normal.quantile(chance, 0, 1) : normalTail(Math.log(chance));
  const z = -student.quantile(chance, df);
  return Number.isFinite(z) ? z : FARTHEST;
}

/** The library's quantile has no digits left there: Newton's method on the logarithm, which is all but a parabola. */
function normalTail(lnChance: number): number {
  let z = Math.min(FARTHEST, Math.sqrt(-2 * lnChance));
  for (let round = 0; round < 8; round += 1) {
    const survival = above(z, Infinity);
    const hazard = normal.pdf(z, 0, 1) / survival;
    z = Math.min(FARTHEST, z + (Math.log(survival) - lnChance) / hazard);
  }
  return z;
}

/**
 * Hours left of an item once some were clocked on it: draws of its whole hours, each put in its place among the hours that
 * are still possible, less what was clocked.
 *
 *     S(h') = S(h)·S(c),  left = h' − c,  S(h) = P(H > h), c = clocked
 *
 * so that P(H > h' | H > c) is what P(H > h) was: the exact conditional distribution, and the draws keep their order and
 * with it what items share. What the clock says of the mechanic or the aircraft of other items is not learned from here:
 * the next fit does that.
 *
 * @param predictive the distribution of ln hours that the draws come from
 * @param drawn draws of the item's hours; not changed
 * @param clocked hands-on hours so far, 0 or more; 0 leaves the draws as they are
 * @throws RangeError for clocked hours below 0 or not finite
 * @example hoursLeft({ location: 0, scale: 1, df: Infinity }, [1, 2], 0) // → Float64Array.of(1, 2)
 */
export function hoursLeft(
  { location, scale, df }: Predictive,
  drawn: ArrayLike<number>,
  clocked: number,
): Float64Array {
  if (!(clocked >= 0 && clocked < Infinity))
    throw new RangeError(`Clocked hours must be 0 or more and finite; got ${clocked}.`);
  if (clocked === 0) return Float64Array.from(drawn);
  if (scale === 0) return Float64Array.from(drawn, (hours) => Math.max(0, hours - clocked));
  const possible = above((Math.log(clocked) - location) / scale, df);
  return Float64Array.from(drawn, (hours) => {
    const chance = above((Math.log(hours) - location) / scale, df) * possible;
    // Far in the tail rounding may land below what was clocked already.
    return Math.max(0, Math.exp(location + scale * withAbove(chance, df)) - clocked);
  });
}
