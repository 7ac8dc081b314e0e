import { ACCESS_CONDITIONS, type Coding, codeCondition } from './access-coding.ts';
import type { AccessCondition, AccessConditions } from './access-conditions.ts';
import { ACCESS_PRIORS, type AccessPriors, type Increment } from './access-priors.ts';

/** What one condition does to the hours. */
export type AccessPart = {
  readonly condition: AccessCondition;
  /** The place as it is, and what the standard was stated for, in words. */
  readonly words: string;
  readonly factor: number;
};

export type AccessEffect = {
  /** Mean of ln factor. */
  readonly mean: number;
  /** Variance of ln factor. */
  readonly variance: number;
  /** The conditions that differ; their factors multiply to exp(mean). */
  readonly parts: readonly AccessPart[];
};

/** One increment, how often it is taken (negative: given back) and its prior. */
export type AccessLoading = {
  /** Name of the increment, the same for every task: "clearanceMm:2". */
  readonly increment: string;
  readonly steps: number;
  readonly mean: number;
  readonly sd: number;
};

/** A condition known in both places and different in them. */
type Difference = {
  readonly condition: AccessCondition;
  readonly here: Coding;
  readonly there: Coding;
  readonly loadings: AccessLoading[];
};

function checked(condition: AccessCondition, increment: Increment | undefined): Increment {
  const { mean, sd } = increment ?? { mean: Number.NaN, sd: Number.NaN };
  if (!(mean >= 0 && mean < Infinity && sd >= 0 && sd < Infinity)) {
    throw new RangeError(
      `Access prior "${condition}" needs a mean and an s.d. of 0 or more; got ${mean} and ${sd}.`,
    );
  }
  return { mean, sd };
}

/** The increments between two codings of one condition, with their sign. */
function between(condition: AccessCondition, here: Coding, there: Coding): AccessLoading[] {
  const loading = (index: number, steps: number): AccessLoading => ({
    increment: `${condition}:${index + 1}`,
    steps,
    ...checked(condition, here.increments[index]),
  });
  if (condition === 'lockedFasteners') return [loading(0, here.level - there.level)];
  const sign = here.level > there.level ? 1 : -1;
  const lowest = Math.min(here.level, there.level);
  return Array.from({ length: Math.abs(here.level - there.level) }, (_, i) =>
    loading(lowest + i, sign),
  );
}

/**
 * Access differences between two places, condition by condition. A condition that is blank in either
 * place contributes nothing.
 */
function differences(
  place: AccessConditions,
  statedFor: AccessConditions,
  priors: AccessPriors,
): Difference[] {
  const found: Difference[] = [];
  for (const condition of ACCESS_CONDITIONS) {
    const here = codeCondition(condition, place, priors);
    const there = codeCondition(condition, statedFor, priors);
    if (here === undefined || there === undefined || here.level === there.level) continue;
    found.push({ condition, here, there, loadings: between(condition, here, there) });
  }
  return found;
}

/**
 * Access loadings: which increments separate a place from the one a standard was stated for. Two
 * jobs that share an increment share its uncertainty, which is why the sum of a package needs them.
 *
 * @example accessLoadings({ reach: 'arm' }, { reach: 'forearm' })
 *   // [{ increment: 'reach:1', steps: 1, mean: 0.1, sd: 0.1 }]
 */
export function accessLoadings(
  place: AccessConditions | undefined,
  statedFor: AccessConditions | undefined,
  priors: AccessPriors = ACCESS_PRIORS,
): AccessLoading[] {
  if (place === undefined || statedFor === undefined) return [];
  return differences(place, statedFor, priors).flatMap(({ loadings }) => loadings);
}

/** Mean of ln factor of some increments. */
export const meanOf = (loadings: readonly AccessLoading[]): number =>
  loadings.reduce((sum, { steps, mean }) => sum + steps * mean, 0);

/**
 * Access effect: what a place costs on the log scale, against the place the standard time was
 * stated for, so that a maker's time for a cramped place is not lengthened twice.
 *
 *     mean = Σ xₖ·meanₖ,  variance = Σ xₖ²·sdₖ²,  x = increments of the place − of the standard's
 *
 * Levels: clearance ≥ 300 · 200–300 · 120–200 · < 120 mm; swing ≥ 60 · 30–60 · < 30 degrees; locked
 * fasteners one by one, the first ten. The priors' coefficients from MIL-HDBK-472 Procedure III are
 * from memory (see ACCESS_PRIORS).
 *
 * @param conditions the place; blank conditions contribute nothing
 * @param statedFor the standard's place; undefined means "as installed", and the effect is none
 * @param priors the shop's table
 * @throws RangeError for an impossible condition or an unusable table
 * @example accessEffect({ reach: 'arm' }, { reach: 'forearm' }).mean // 0.1
 */
export function accessEffect(
  conditions: AccessConditions | undefined,
  statedFor: AccessConditions | undefined,
  priors: AccessPriors = ACCESS_PRIORS,
): AccessEffect {
  if (conditions === undefined || statedFor === undefined)
    return { mean: 0, variance: 0, parts: [] };
  const found = differences(conditions, statedFor, priors);
  const loadings = found.flatMap((difference) => difference.loadings);
  return {
    mean: meanOf(loadings),
    variance: loadings.reduce((sum, { steps, sd }) => sum + (steps * sd) ** 2, 0),
    parts: found.map(({ condition, here, there, loadings: own }) => ({
      condition,
      words: `${here.words} (stated for: ${there.words})`,
      factor: Math.exp(meanOf(own)),
    })),
  };
}
