import { ACCESS_PRIORS, type AccessCondition, type AccessPriors } from '@fairlead/labour';
import { Refused } from '../errors.ts';

/** One step for the worse, as people say it: what it multiplies hours by, and how sure that is. */
export interface AccessStep {
  condition: AccessCondition;
  /** Counted from 1, the first for the worse. */
  step: number;
  words: string;
  /** On top of the step before; 1 changes nothing. */
  factor: number;
  /** Nine in ten lie between factor ÷ this and factor × this. */
  giveOrTake: number;
}

export type GivenStep = Omit<AccessStep, 'words'>;

/** The conditions in the order in which they are told, with what they are called. */
export const CONDITION_WORDS: Record<AccessCondition, string> = {
  clearanceMm: 'Clearance for hand and tool',
  sight: 'Sight',
  posture: 'Posture',
  reach: 'Reach',
  swingDeg: 'Free swing of the tool',
  held: 'Held while fastening',
  lockedFasteners: 'Locked in place',
};
const CONDITIONS = Object.keys(CONDITION_WORDS) as AccessCondition[];

/** Beyond these a factor is a slip of the pen, not an opinion (common practice, no source). */
const MOST_FACTOR = 10;
const LEAST_DOUBT = 1.01;
/** The 0.95 quantile of the standard normal distribution: nine in ten lie within so many s.d. */
const NINETY = 1.6448536269514722;

type Increment = { mean: number; sd: number };
type Step = Increment & { words: string };
const stepsIn = (access: AccessPriors, condition: AccessCondition): readonly Step[] =>
  condition === 'lockedFasteners'
    ? [
        {
          ...access.lockedFasteners.each,
          words: `each locked fastener, the first ${access.lockedFasteners.first}`,
        },
      ]
    : access[condition].steps;

/** A table of access priors in factors. */
export const stepsOf = (access: AccessPriors): AccessStep[] =>
  CONDITIONS.flatMap((condition) =>
    stepsIn(access, condition).map(({ words, mean, sd }, index) => ({
      condition,
      step: index + 1,
      words,
      factor: Math.exp(mean),
      giveOrTake: Math.exp(NINETY * sd),
    })),
  );

const sayNumber = (value: number) => String(Number(value.toPrecision(6)));

function incrementOf({ factor, giveOrTake }: GivenStep, what: string): Increment {
  if (!(factor >= 1 && factor <= MOST_FACTOR))
    throw new Refused(
      'BAD_INPUT',
      `${what}: the factor is ×${sayNumber(factor)}; needed is ×1 to ×${MOST_FACTOR}, since a worse place never saves time.`,
      'steps',
    );
  if (!(giveOrTake >= LEAST_DOUBT && giveOrTake <= MOST_FACTOR))
    throw new Refused(
      'BAD_INPUT',
      `${what}: give or take is ×${sayNumber(giveOrTake)}; needed is ×${LEAST_DOUBT} to ×${MOST_FACTOR}. Nobody knows it exactly.`,
      'steps',
    );
  return { mean: Math.log(factor), sd: Math.log(giveOrTake) / NINETY };
}

/**
 * The table that somebody gave in factors, with bands and words of the one in force.
 *
 * @throws Refused unless each step is given once, with a factor of 1 or more and a doubt
 */
export function tableFrom(given: readonly GivenStep[], base: AccessPriors): AccessPriors {
  const wanted = stepsOf(base);
  const sayStep = ({ condition, words }: AccessStep) => `${CONDITION_WORDS[condition]}, ${words}`;
  for (const { condition, step } of given)
    if (!wanted.some((each) => each.condition === condition && each.step === step))
      throw new Refused(
        'BAD_INPUT',
        `${CONDITION_WORDS[condition]} has no step ${step}: needed are its steps from 1 to ${stepsIn(base, condition).length}.`,
        'steps',
      );
  const increment = (condition: AccessCondition, step: number): Increment => {
    const found = given.filter((each) => each.condition === condition && each.step === step);
    const what = sayStep(
      wanted.find((each) => each.condition === condition && each.step === step) as AccessStep,
    );
    const [one, another] = found;
    if (!one)
      throw new Refused(
        'BAD_INPUT',
        `${what}: is missing; needed is every step of every condition.`,
        'steps',
      );
    if (another)
      throw new Refused(
        'BAD_INPUT',
        `${what}: is given ${found.length} times; needed is once.`,
        'steps',
      );
    return incrementOf(one, what);
  };
  const within = <Kept extends object>(condition: AccessCondition, steps: readonly Kept[]) =>
    steps.map((kept, index) => ({ ...kept, ...increment(condition, index + 1) }));
  const { clearanceMm, sight, posture, reach, swingDeg, held, lockedFasteners } = base;
  return {
    clearanceMm: { ...clearanceMm, steps: within('clearanceMm', clearanceMm.steps) },
    sight: { ...sight, steps: within('sight', sight.steps) },
    posture: { ...posture, steps: within('posture', posture.steps) },
    reach: { ...reach, steps: within('reach', reach.steps) },
    swingDeg: { ...swingDeg, steps: within('swingDeg', swingDeg.steps) },
    held: { ...held, steps: within('held', held.steps) },
    lockedFasteners: { ...lockedFasteners, each: increment('lockedFasteners', 1) },
  };
}

const sayStepped = ({ factor, giveOrTake }: AccessStep) =>
  `×${factor.toFixed(2)} give or take ×${giveOrTake.toFixed(2)}`;
const close = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * b;

/** What one table says otherwise than another, a sentence a step. */
export function changesBetween(before: AccessPriors, after: AccessPriors): string[] {
  const was = stepsOf(before);
  return stepsOf(after).flatMap((now, index) => {
    const old = was[index];
    if (!old || (close(now.factor, old.factor) && close(now.giveOrTake, old.giveOrTake))) return [];
    return [
      `${CONDITION_WORDS[now.condition]}, ${now.words}: ${sayStepped(old)}, now ${sayStepped(now)}`,
    ];
  });
}

/** Where the program's own table comes from; a shop's own table is its manager's. */
export const SOURCES: readonly string[] = [
  'In the maintainability-prediction regression of MIL-HDBK-472, Procedure III, one access item from best to worst multiplies predicted repair time by about 1.26. That figure is quoted from memory and was not checked against the handbook.',
  'Postures are ordered as the published tables of relaxation allowances order them, lying or stretching the largest; how much each adds is common practice, no source.',
  'The other conditions are common practice, no source.',
];

/** The program's own table, which a shop has until its manager saves one. */
export const OWN_TABLE = ACCESS_PRIORS;
