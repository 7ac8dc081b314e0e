import normal from '@stdlib/stats-base-dists-normal';

const LN_SQRT_2PI = Math.log(2 * Math.PI) / 2;

/** λ(z) = φ(z)/(1 − Φ(z)), the hazard of a standard normal; for large z its asymptotic z + 1/z − 2/z³. */
export function hazard(z: number): number {
  if (z > 30) return z + 1 / z - 2 / z ** 3;
  return Math.exp(-(z * z) / 2 - LN_SQRT_2PI) / normal.cdf(-z, 0, 1);
}
