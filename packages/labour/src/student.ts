import normal from '@stdlib/stats-base-dists-normal';
import student from '@stdlib/stats-base-dists-t';

/** A Student-t distribution of ln hours. `df` may be Infinity: then it is a normal. */
export type Predictive = {
  readonly location: number;
  readonly scale: number;
  readonly df: number;
};

/**
 * Student-t quantile: the value that a standard Student-t stays under with probability p.
 *
 * @param p probability, strictly between 0 and 1
 * @param df degrees of freedom, above 0; Infinity gives the standard normal
 * @throws RangeError outside those ranges
 * @example studentQuantile(0.975, 10) // 2.2281388519862744
 */
export function studentQuantile(p: number, df: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`Probability must lie between 0 and 1; got ${p}.`);
  if (!(df > 0)) throw new RangeError(`Degrees of freedom must be above 0; got ${df}.`);
  return df === Infinity ? normal.quantile(p, 0, 1) : student.quantile(p, df);
}

/**
 * Hours quantile: the hours that a job stays under with probability p, exp(location + scale·t).
 *
 * @throws RangeError when p or df is out of range, or when the answer is too large for a number
 * @example hoursQuantile({ location: 0, scale: 1, df: Infinity }, 0.5) // 1
 */
export function hoursQuantile({ location, scale, df }: Predictive, p: number): number {
  const quantile = Math.exp(location + scale * studentQuantile(p, df));
  if (!Number.isFinite(quantile)) {
    throw new RangeError(
      `Cannot state the ${p} quantile in hours: location ${location} and scale ${scale} of ln hours are too wide.`,
    );
  }
  return quantile;
}
