import type { AccessConditions } from '../access-conditions.ts';
import type { AccessPriors } from '../access-priors.ts';
import type { EffectPrior } from '../mixed/problem.ts';
import type { Factor } from './coding.ts';
import type { HoursPriors } from './priors.ts';

/** Changes whenever the same history and request would give other figures. */
export const HOURS_MODEL_VERSION = 'log-mixed-5';

/** One column of fixed effects: its prior, and how many items tell of it. */
export type ModelColumn = EffectPrior & { readonly name: string; readonly items: number };

/** One grouping factor as fitted. */
export type ModelFactor = {
  readonly factor: Factor;
  readonly levels: readonly string[];
  /** Finished items of each level. */
  readonly items: readonly number[];
  /** Standard deviation relative to the residual's: Λ. */
  readonly relative: number;
};

/** Items that are alike in everything the model sees, put together: their weights added, their ln hours averaged. */
export type ModelRow = {
  readonly weight: number;
  readonly y: number;
  /** Index of a column and its value, alternating. */
  readonly x: readonly number[];
  /** Index of a factor, index of a level and share, alternating. */
  readonly z: readonly number[];
};

/**
 * A fitted model of a shop's hours: plain data, to be written down, read again and asked. What it answers follows from
 * what is written here alone, to the last digit.
 */
export type HoursModel = {
  readonly version: string;
  readonly priors: HoursPriors;
  readonly accessPriors: AccessPriors;
  readonly columns: readonly ModelColumn[];
  readonly factors: readonly ModelFactor[];
  readonly lnSigma: number;
  /** How much wider than the fit says items really fall, by leaving each of a sample out in turn; 1 is as it says. */
  readonly stretch: number;
  readonly rows: readonly ModelRow[];
  /** The standard time that each task was last seen with. */
  readonly standards: Readonly<Record<string, number>>;
  /** Where each task was last seen on each model, for what is blank of a place. */
  readonly places: Readonly<Record<string, AccessConditions>>;
  readonly summary: {
    readonly items: number;
    /** Items that were only lower bounds. */
    readonly censored: number;
    /** Items that count less than half, because they lie far from what the rest says. */
    readonly odd: number;
    readonly medianHours: number | undefined;
    readonly rounds: number;
    readonly settled: boolean;
  };
};
