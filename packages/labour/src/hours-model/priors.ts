import type { SpreadPrior } from '../mixed/problem.ts';

/**
 * What the hours model believes before it has seen the shop. Data that a shop can edit, never constants in a formula.
 * All on the scale of ln hours. Common practice, no source, but for the first three, which are the model's own
 * definition: δ_chapter ~ N(0, 0.2²), μ_chapter ~ N(ln of the shop's median, 0.8²).
 */
export type HoursPriors = {
  /** s.d. of what a chapter does to its standard times. */
  readonly chapterOnStandard: number;
  /** s.d. of the level of tasks without a standard time, about the shop's median. */
  readonly chapterLevel: number;
  /** Hours taken for the shop's median while it has none. */
  readonly medianHours: number;
  readonly taskWithStandard: SpreadPrior;
  readonly taskWithout: SpreadPrior;
  readonly mechanic: SpreadPrior;
  readonly modelChapter: SpreadPrior;
  readonly registration: SpreadPrior;
  /** How far one job falls from its centre: as if so many jobs had been seen to fall that far (scaled inverse χ²). */
  readonly residual: { readonly sd: number; readonly jobs: number };
  /** Degrees of freedom of the Student-t that decides how much an odd time counts. */
  readonly robustDf: number;
};

const about = (sd: number, within: number): SpreadPrior => ({ mean: Math.log(sd), sd: within });

export const HOURS_PRIORS: HoursPriors = {
  chapterOnStandard: 0.2,
  chapterLevel: 0.8,
  medianHours: 1,
  taskWithStandard: about(0.25, 0.6),
  taskWithout: about(0.5, 0.6),
  mechanic: about(0.12, 0.6),
  modelChapter: about(0.1, 0.6),
  registration: about(0.08, 0.6),
  residual: { sd: 0.3, jobs: 4 },
  robustDf: 5,
};
