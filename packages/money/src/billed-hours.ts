import { exact, toWhole } from './exact.ts';

/** The shop's rule for turning clocked time into billed hours. */
export interface BilledTimeRule {
  /** The step billed in, in hours, above zero: tenths ("0.1") are common practice, no source. */
  readonly step: string;
  /** `up`: every step begun counts; `nearest`: half a step or more counts. */
  readonly rounding: 'up' | 'nearest';
  /** The fewest hours billed once anything was clocked. */
  readonly minimum?: string;
}

/** Hours as they are billed, and whether the shop's minimum made more of them than the clock and the step did. */
export interface BilledTime {
  readonly hours: string;
  readonly byMinimum: boolean;
}

/**
 * Billed hours from clocked seconds, by the shop's rule.
 *
 * Formula: step × ⌈seconds ÷ (3600 × step)⌉ for `up`, step × ⌊seconds ÷ (3600 × step) + ½⌋ for
 * `nearest`, and at least the minimum when any time was clocked. Whole numbers throughout.
 *
 * @param seconds whole seconds, 0 or more.
 * @returns hours as a plain decimal with the decimals of the step or the minimum, whichever has more.
 * @throws RangeError for seconds that are negative or no whole number, a step of zero or less, or a
 *   negative minimum.
 * @example billedHours(3601, { step: '0.1', rounding: 'up' }) // → '1.1'
 * @example billedHours(3779, { step: '0.1', rounding: 'nearest' }) // → '1.0'
 * @example billedHours(60, { step: '0.1', rounding: 'up', minimum: '0.5' }) // → '0.5'
 */
export function billedHours(seconds: number, rule: BilledTimeRule): string {
  return billedTime(seconds, rule).hours;
}

/**
 * Billed hours from clocked seconds as `billedHours` counts them, and whether the minimum took hold.
 *
 * @throws RangeError what `billedHours` throws
 * @example billedTime(60, { step: '0.1', rounding: 'up', minimum: '0.5' }) // → { hours: '0.5', byMinimum: true }
 * @example billedTime(1800, { step: '0.1', rounding: 'up', minimum: '0.5' }) // → { hours: '0.5', byMinimum: false }
 */
export function billedTime(seconds: number, rule: BilledTimeRule): BilledTime {
  if (!Number.isSafeInteger(seconds) || seconds < 0) {
    throw new RangeError(`Cannot bill ${seconds} seconds: give a whole number, 0 or more`);
  }
  const step = exact(rule.step, 'step');
  const minimum = exact(rule.minimum ?? '0', 'minimum');
  if (step.lte(0)) {
    throw new RangeError(`Cannot bill in steps of ${rule.step} h: give a step above 0`);
  }
  if (minimum.lt(0)) {
    throw new RangeError(`Cannot bill a minimum of ${rule.minimum} h: give 0 or more`);
  }
  const places = Math.max(step.decimalPlaces(), minimum.decimalPlaces());
  const clocked = BigInt(seconds) * 10n ** BigInt(places);
  const stepInSeconds = 3600n * toWhole(step, places);
  const steps =
    rule.rounding === 'up'
      ? (clocked + stepInSeconds - 1n) / stepInSeconds
      : (2n * clocked + stepInSeconds) / (2n * stepInSeconds);
  const hours = step.mul(steps.toString());
  const byMinimum = seconds > 0 && hours.lt(minimum);
  return { hours: (byMinimum ? minimum : hours).toFixed(places), byMinimum };
}

/**
 * Billed hours of hours that are foretold, by the shop's rule: what `billedHours` says of as many seconds, as a function that
 * a simulation can ask a million times.
 *
 * @returns a function of hours, 0 or more; work that takes any time takes a second at least
 * @throws RangeError for a rule that `billedHours` throws for
 * @example billedHoursOf({ step: '0.1', rounding: 'up', minimum: '1.0' })(0.2) // → 1
 * @example billedHoursOf({ step: '0.1', rounding: 'nearest' })(1.04) // → 1
 */
export function billedHoursOf(rule: BilledTimeRule): (hours: number) => number {
  const former = ofRule.get(rule);
  if (former !== undefined) return former;
  const billed = tabulated(rule);
  ofRule.set(rule, billed);
  return billed;
}

/** One table for each rule that is at hand, however many orders ask by it. */
const ofRule = new WeakMap<BilledTimeRule, (hours: number) => number>();

function tabulated(rule: BilledTimeRule): (hours: number) => number {
  billedTime(0, rule);
  const step = exact(rule.step, 'step');
  const perHour = 10 ** step.decimalPlaces();
  const wholeStep = step.mul(perHour).toNumber();
  // Whole numbers far below 2⁵³, so that no half of a step is lost.
  const stepInSeconds = 3600 * wholeStep;
  const minimum = exact(rule.minimum ?? '0', 'minimum').toNumber();
  const up = rule.rounding === 'up';
  const reckoned = (seconds: number) => {
    const clocked = seconds * perHour;
    const steps = up
      ? Math.ceil(clocked / stepInSeconds)
      : Math.floor((2 * clocked + stepInSeconds) / (2 * stepInSeconds));
    return Math.max((steps * wholeStep) / perHour, minimum);
  };
  // Most items take a few hours: looked up, a million answers take a third of the time.
  const known = Float64Array.from({ length: LOOKED_UP }, (_, second) => reckoned(second));
  return (hours) => {
    if (!(hours > 0)) return 0;
    const seconds = secondsFrom(hours);
    return seconds < LOOKED_UP ? known[seconds]! : reckoned(seconds);
  };
}

/** Seconds of ten hours. */
const LOOKED_UP = 36_000;

/** Whole seconds of hours that are foretold: one at least of work that takes any time. */
export const secondsFrom = (hours: number): number =>
  hours > 0 ? Math.max(1, Math.round(hours * 3600)) : 0;
