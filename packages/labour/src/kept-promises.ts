import { type Interval, PROMISED, wilsonInterval } from './coverage.ts';

/** A promise and what became of it; days counted from any one day. */
export type PromiseAndRelease = {
  readonly p50: number;
  readonly p80: number;
  readonly released: number;
  /** Whether work was added after the promise was given. */
  readonly grew: boolean;
};

/** How many aircraft were ready when it was promised. */
export type KeptPromises = {
  readonly orders: number;
  readonly byP50: number;
  readonly byP80: number;
  /** Later than the P80, and work was added on the way. */
  readonly lateAndGrown: number;
  /** Where the share by the P80 lies in the long run, 95 % Wilson interval. */
  readonly interval: Interval;
  readonly verdict: 'too_few' | 'agrees' | 'too_early' | 'too_late';
  readonly sentence: string;
};

/** From so many on, a share that agrees with the promise says something. */
const ENOUGH = 30;
/** Under so many nothing is said against it: one late of one happens one time in five. */
const SOME = 10;
const perCent = (share: number): string => `${Math.round(share * 100)} %`;

/**
 * Promises against releases: how many were ready by the P80 day, four in five of which should be, and what may be said of it.
 *
 * @returns null for no promises: nothing can be said
 * @example keptPromises([{ p50: 3, p80: 5, released: 5, grew: false }])?.byP80 // → 1
 */
export function keptPromises(promises: readonly PromiseAndRelease[]): KeptPromises | null {
  const orders = promises.length;
  if (orders === 0) return null;
  const byP50 = promises.filter(({ p50, released }) => released <= p50).length;
  const byP80 = promises.filter(({ p80, released }) => released <= p80).length;
  const lateAndGrown = promises.filter(({ p80, released, grew }) => released > p80 && grew).length;
  const interval = wilsonInterval(byP80, orders);
  const verdict =
    orders < SOME
      ? 'too_few'
      : interval.high < PROMISED
        ? 'too_early'
        : interval.low > PROMISED
          ? 'too_late'
          : orders < ENOUGH
            ? 'too_few'
            : 'agrees';
  const counted = `${byP80} of ${orders} ${orders === 1 ? 'was' : 'were'} ready by the day of four in five.`;
  const range = `in the long run it may be anything from ${perCent(interval.low)} to ${perCent(interval.high)}`;
  const said = {
    too_few: `So few say little: ${range}.`,
    agrees: `That agrees: ${range}.`,
    too_early: `The days promised are too early, and chance does not explain it: ${range}.`,
    too_late: `The days promised are later than they need be: ${range}.`,
  }[verdict];
  const grown =
    lateAndGrown === 0
      ? ''
      : ` To ${lateAndGrown} of the late ones work was added after the promise.`;
  return {
    orders,
    byP50,
    byP80,
    lateAndGrown,
    interval,
    verdict,
    sentence: `${counted} ${said}${grown}`,
  };
}
