import type { AccessCondition, AccessConditions } from './access-conditions.ts';
import type {
  AccessPriors,
  BandedCondition,
  Increment,
  LevelledCondition,
} from './access-priors.ts';

/** A recorded condition on its scale. */
export type Coding = {
  readonly words: string;
  /** Increments taken from the best level on; for locked fasteners, how often the one is taken. */
  readonly level: number;
  readonly increments: readonly Increment[];
};

/** The order in which conditions are told. */
export const ACCESS_CONDITIONS: readonly AccessCondition[] = [
  'clearanceMm',
  'sight',
  'posture',
  'reach',
  'swingDeg',
  'held',
  'lockedFasteners',
];

function codeBand(
  condition: AccessCondition,
  value: number | undefined,
  largest: number,
  { best, steps }: BandedCondition,
): Coding | undefined {
  if (value === undefined) return undefined;
  if (!(value >= 0 && value <= largest)) {
    throw new RangeError(`Access condition ${condition} must be 0 to ${largest}; got ${value}.`);
  }
  let level = 0;
  let bound = Infinity;
  for (const { below } of steps) {
    if (!(below < bound)) {
      throw new RangeError(`Access prior "${condition}" needs bounds that fall from step to step.`);
    }
    bound = below;
    if (value < below) level += 1;
  }
  return { words: steps[level - 1]?.words ?? best, level, increments: steps };
}

function codeLevel<Level>(
  condition: AccessCondition,
  value: Level | undefined,
  { best, steps }: LevelledCondition<Level>,
): Coding | undefined {
  if (value === undefined) return undefined;
  if (value === best.level) return { words: best.words, level: 0, increments: steps };
  const index = steps.findIndex((step) => step.level === value);
  const words = steps[index]?.words;
  if (words === undefined) {
    const known = [best, ...steps].map((step) => String(step.level)).join(', ');
    throw new RangeError(
      `Access condition ${condition} must be one of ${known}; got ${String(value)}.`,
    );
  }
  return { words, level: index + 1, increments: steps };
}

function codeCount(
  value: number | undefined,
  { each, first }: AccessPriors['lockedFasteners'],
): Coding | undefined {
  if (value === undefined) return undefined;
  if (!Number.isInteger(value) || value < 0) {
    throw new RangeError(
      `Access condition lockedFasteners must be a whole number of 0 or more; got ${value}.`,
    );
  }
  const words = value === 1 ? '1 locked fastener' : `${value} locked fasteners`;
  return { words, level: Math.min(value, first), increments: [each] };
}

/** One condition of a place on its scale; undefined where it is blank. */
export function codeCondition(
  condition: AccessCondition,
  place: AccessConditions,
  priors: AccessPriors,
): Coding | undefined {
  switch (condition) {
    case 'clearanceMm':
      return codeBand(condition, place.clearanceMm, Number.MAX_VALUE, priors.clearanceMm);
    case 'sight':
      return codeLevel(condition, place.sight, priors.sight);
    case 'posture':
      return codeLevel(condition, place.posture, priors.posture);
    case 'reach':
      return codeLevel(condition, place.reach, priors.reach);
    case 'swingDeg':
      return codeBand(condition, place.swingDeg, 360, priors.swingDeg);
    case 'held':
      return codeLevel(condition, place.held, priors.held);
    case 'lockedFasteners':
      return codeCount(place.lockedFasteners, priors.lockedFasteners);
  }
}
