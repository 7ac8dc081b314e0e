/** What the estimate believes before any history. Data that a shop may edit. */
export type EstimatePriors = {
  /** S.d. of the shop's effect on standard times, ln scale. */
  readonly shopSd: number;
  /** S.d. of one task's own departure from its standard time, ln scale. */
  readonly taskSd: number;
  /** S.d. of a task without a standard time about the shop's median, ln scale. */
  readonly noStandardSd: number;
  /** S.d. of one job about its task, ln scale, and the degrees of freedom that it is worth. */
  readonly jobSd: number;
  readonly jobSdWeight: number;
  /** Degrees of freedom behind the shop's job s.d. when it is lent to one task (ν₀). */
  readonly jobSdDf: number;
};

/**
 * Estimate priors to start from. The 0.2 and 0.8 say that a shop seldom departs from standard times
 * by more than half or double; 0.3 and 0.4 for a task and for a job are common practice, no source.
 */
export const ESTIMATE_PRIORS: EstimatePriors = Object.freeze({
  shopSd: 0.2,
  taskSd: 0.3,
  noStandardSd: 0.8,
  jobSd: 0.4,
  jobSdWeight: 10,
  jobSdDf: 6,
});
