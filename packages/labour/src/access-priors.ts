import type { Posture, Reach, Sight } from './access-conditions.ts';

/** How much one step for the worse adds to ln hours: prior mean (never negative) and prior s.d. */
export type Increment = { readonly mean: number; readonly sd: number };

/** A measured condition in bands; each step begins where the measure falls below `below`. */
export type BandedCondition = {
  readonly best: string;
  readonly steps: readonly (Increment & { readonly below: number; readonly words: string })[];
};

/** A condition named by level, from the best to the worst. */
export type LevelledCondition<Level> = {
  readonly best: { readonly level: Level; readonly words: string };
  readonly steps: readonly (Increment & { readonly level: Level; readonly words: string })[];
};

/** The table of access priors. A shop may pass its own; nothing in the code knows these numbers. */
export type AccessPriors = {
  readonly clearanceMm: BandedCondition;
  readonly sight: LevelledCondition<Sight>;
  readonly posture: LevelledCondition<Posture>;
  readonly reach: LevelledCondition<Reach>;
  readonly swingDeg: BandedCondition;
  readonly held: LevelledCondition<boolean>;
  readonly lockedFasteners: { readonly each: Increment; readonly first: number };
};

/**
 * Access priors to start from, on the scale of ln hours, as increments: the prior factor of a level
 * is exp of the sum of the means down to it (clearance below 120 mm: 0.08 + 0.15 + 0.17 = 0.40).
 * The s.d. belongs to each increment, and increments are independent.
 *
 * Where they come from: in the maintainability-prediction regression of MIL-HDBK-472 Procedure III
 * one access item from best to worst multiplies predicted repair time by about 1.26, 0.23 on the
 * log scale. Those coefficients are quoted FROM MEMORY and were not checked against the handbook.
 * Posture and strain follow the ordering of published relaxation-allowance tables (lying or
 * stretching the largest). The rest is common practice, no source. The shop's own history should
 * overrule all of it.
 */
export const ACCESS_PRIORS: AccessPriors = {
  clearanceMm: {
    best: '300 mm or more for hand and tool',
    steps: [
      { below: 300, words: '200 to 300 mm for hand and tool', mean: 0.08, sd: 0.15 },
      { below: 200, words: '120 to 200 mm for hand and tool', mean: 0.15, sd: 0.15 },
      { below: 120, words: 'under 120 mm for hand and tool', mean: 0.17, sd: 0.15 },
    ],
  },
  sight: {
    best: { level: 'direct', words: 'in direct sight' },
    steps: [
      { level: 'mirror', words: 'seen by mirror or borescope', mean: 0.12, sd: 0.12 },
      { level: 'feel', words: 'done by feel', mean: 0.13, sd: 0.12 },
    ],
  },
  posture: {
    best: { level: 'upright', words: 'upright' },
    steps: [
      { level: 'bent', words: 'bent or kneeling', mean: 0.05, sd: 0.08 },
      { level: 'lying', words: 'lying or overhead', mean: 0.07, sd: 0.08 },
    ],
  },
  reach: {
    best: { level: 'forearm', words: 'within the forearm' },
    steps: [{ level: 'arm', words: 'at full arm', mean: 0.1, sd: 0.1 }],
  },
  swingDeg: {
    best: '60° or more of tool swing',
    steps: [
      { below: 60, words: '30 to 60° of tool swing', mean: 0.08, sd: 0.12 },
      { below: 30, words: 'under 30° of tool swing', mean: 0.12, sd: 0.12 },
    ],
  },
  held: {
    best: { level: false, words: 'nothing to hold against' },
    steps: [{ level: true, words: 'held against spring, cam or weight', mean: 0.18, sd: 0.15 }],
  },
  lockedFasteners: { each: { mean: 0.02, sd: 0.02 }, first: 10 },
};
