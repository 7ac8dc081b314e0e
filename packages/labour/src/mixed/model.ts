import type { EffectPrior, SpreadPrior } from './problem.ts';

/** A column of numbers with its name, a value each row. */
export type Column = { readonly name: string; readonly values: Float64Array };

/** The members of a group that share a row, where it is not just one: entries of row r from start[r] up to start[r + 1]. */
export type Membership = {
  readonly start: Int32Array;
  readonly level: Int32Array;
  /** Share of each; usually they add up to 1. */
  readonly share: Float64Array;
};

/** A grouping factor: levels whose effects are drawn from one normal distribution. */
export type Grouping = {
  readonly name: string;
  readonly levels: readonly string[];
  /** Level of each row, or who shares it. */
  readonly of: Int32Array | Membership;
  /** Covariates with a random slope for each level. */
  readonly slopes?: readonly Column[] | undefined;
  /** Whether each level has a random intercept: true unless said. */
  readonly intercept?: boolean | undefined;
  /** Whether intercept and slopes are correlated: true unless said. */
  readonly correlated?: boolean | undefined;
  readonly spread?: SpreadPrior | undefined;
};

/** What to fit: y = Xβ + Zb + ε. */
export type MixedModel = {
  readonly y: Float64Array;
  /** Columns of X besides the intercept. */
  readonly fixed: readonly Column[];
  /** Whether X has a column of ones: true unless said. */
  readonly intercept?: boolean | undefined;
  readonly groups: readonly Grouping[];
  readonly method: 'reml' | 'ml';
  /** Weight of each row: its variance is σ²/weight. */
  readonly weights?: Float64Array | undefined;
  /** Normal priors by the name of the fixed effect; those not named are flat. */
  readonly priors?: Readonly<Record<string, EffectPrior>> | undefined;
  readonly residualSpread?: SpreadPrior | undefined;
  /** Relative standard deviations to begin at, by group: a former fit's, so that a refit is short. */
  readonly startAt?: readonly number[] | undefined;
};

/** One grouping factor as fitted. */
export type FittedGroup = {
  readonly name: string;
  readonly terms: readonly string[];
  readonly levels: readonly string[];
  /** Covariance of a level's terms, row-major. */
  readonly covariance: Float64Array;
  /** Conditional means of the effects: term t of level l is effects[l · terms + t]. */
  readonly effects: Float64Array;
};

export type MixedFit = {
  readonly rows: number;
  readonly fixed: readonly {
    readonly name: string;
    readonly estimate: number;
    readonly se: number;
  }[];
  /** Covariance of the fixed effects, row-major, in the order of `fixed`. */
  readonly fixedCovariance: Float64Array;
  readonly groups: readonly FittedGroup[];
  /** Residual variance σ². */
  readonly residual: number;
  /** −2 × the log (restricted) likelihood with all its constants. */
  readonly criterion: number;
  readonly iterations: number;
  readonly evaluations: number;
  /** Relative standard deviations of each group's first term. */
  readonly relative: readonly number[];
};

export const INTERCEPT = '(Intercept)';
