/** What is believed of a task's ln hours before its own jobs are seen. */
export type Prior = {
  readonly location: number;
  /** How many jobs the location is worth (κ₀); 0: nothing is known of it. */
  readonly kappa: number;
  /** Residual s.d. (s₀) and the degrees of freedom behind it (ν₀); 0: nothing is known of it. */
  readonly sd: number;
  readonly df: number;
};

/** The prior that says nothing: the answer is then the classical one. */
export const FLAT: Prior = Object.freeze({ location: 0, kappa: 0, sd: 0, df: 0 });

/** The same four after seeing the jobs, and the plain sample figures beside them. */
export type Posterior = Prior & {
  readonly jobs: number;
  /** Mean of what was seen; undefined without a job. */
  readonly sampleMean: number | undefined;
  /** Sample s.d. (divisor n − 1); undefined with fewer than two jobs. */
  readonly sampleSd: number | undefined;
};

/**
 * Normal–inverse-gamma update: what to believe of m and σ² after n values of ln hours.
 *
 *     y ~ N(m, σ²),  m | σ² ~ N(m₀, σ²/κ₀),  σ² ~ scaled-inverse-χ²(ν₀, s₀²)
 *     κₙ = κ₀ + n,  νₙ = ν₀ + n,  mₙ = (κ₀m₀ + nȳ)/κₙ
 *     νₙsₙ² = ν₀s₀² + Σ(y − ȳ)² + (κ₀n/κₙ)(ȳ − m₀)²
 *
 * (Gelman et al., Bayesian Data Analysis, 3rd ed., §3.3.) With κ₀ = 0 the prior on m is flat instead
 * and costs one degree of freedom, νₙ = ν₀ + n − 1; with ν₀ = 0 too this is the classical answer.
 *
 * @param values ln hours, in any order: they are sorted first, so that the order changes no digit
 * @throws RangeError when neither the prior nor the values say how much jobs vary
 * @example updated([0, 2], FLAT).location // 1
 */
export function updated(values: readonly number[], prior: Prior): Posterior {
  const sorted = [...values].sort((a, b) => a - b);
  const jobs = sorted.length;
  const kappa = prior.kappa + jobs;
  const df = prior.df + jobs - (prior.kappa === 0 ? 1 : 0);
  if (!(df > 0)) {
    throw new RangeError(`A flat prior needs at least 2 jobs to learn a spread from; got ${jobs}.`);
  }
  if (jobs === 0) return { ...prior, jobs, sampleMean: undefined, sampleSd: undefined };
  const sampleMean = sorted.reduce((sum, y) => sum + y, 0) / jobs;
  const squares = sorted.reduce((sum, y) => sum + (y - sampleMean) ** 2, 0);
  const surprise = ((prior.kappa * jobs) / kappa) * (sampleMean - prior.location) ** 2;
  return {
    jobs,
    sampleMean,
    sampleSd: jobs > 1 ? Math.sqrt(squares / (jobs - 1)) : undefined,
    location: (prior.kappa * prior.location + jobs * sampleMean) / kappa,
    kappa,
    sd: Math.sqrt((prior.df * prior.sd ** 2 + squares + surprise) / df),
    df,
  };
}
