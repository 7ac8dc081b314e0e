import {
  ACCESS_PRIORS,
  type AccessConditions,
  accessLoadings,
  FREE_BENCH,
} from '../../src/index.ts';
import type { Dice } from './dice.ts';

/** A place with every condition at its worst: what takes all increments there are. */
const WORST: AccessConditions = {
  clearanceMm: 50,
  sight: 'feel',
  posture: 'lying',
  reach: 'arm',
  swingDeg: 10,
  held: true,
  lockedFasteners: 1,
};

/** What an access condition really does in a shop: ln factor of each increment, by name. */
export type AccessTruth = ReadonlyMap<string, number>;

/** `prior`: drawn from the table of priors. `other`: the shop differs from the table in both directions. */
export function accessTruth(dice: Dice, kind: 'prior' | 'other'): AccessTruth {
  const times = kind === 'prior' ? 1 : dice.even(0.2, 2.2);
  const wider = kind === 'prior' ? 1 : 1.3;
  return new Map(
    accessLoadings(WORST, FREE_BENCH, ACCESS_PRIORS).map(({ increment, mean, sd }) => [
      increment,
      dice.normal(mean * times, sd * wider),
    ]),
  );
}

/** How much longer a place takes than the free bench, ln. */
export const trueEffect = (place: AccessConditions, truth: AccessTruth): number =>
  accessLoadings(place, FREE_BENCH, ACCESS_PRIORS).reduce(
    (sum, { increment, steps }) => sum + steps * truth.get(increment)!,
    0,
  );

/** Some place on an aircraft; the worse levels are the rarer. */
export function drawPlace(dice: Dice): AccessConditions {
  const level = (shares: readonly number[]) => {
    let left = dice.even();
    return shares.findIndex((share) => (left -= share) < 0);
  };
  return {
    clearanceMm: [400, 240, 160, 80][level([0.5, 0.25, 0.15, 0.11])]!,
    sight: (['direct', 'mirror', 'feel'] as const)[level([0.65, 0.22, 0.14])]!,
    posture: (['upright', 'bent', 'lying'] as const)[level([0.5, 0.3, 0.21])]!,
    reach: (['forearm', 'arm'] as const)[level([0.7, 0.31])]!,
    swingDeg: [90, 45, 20][level([0.6, 0.25, 0.16])]!,
    held: dice.chance(0.15),
    lockedFasteners: dice.chance(0.6) ? 0 : 1 + dice.below(6),
  };
}

/** What was written down of a place: now and then a condition is left blank. */
export const recorded = (dice: Dice, place: AccessConditions, blank: number): AccessConditions =>
  Object.fromEntries(Object.entries(place).filter(() => !dice.chance(blank)));
