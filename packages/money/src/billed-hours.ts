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
