/** Where the truth lies with 95 % confidence, both from 0 to 1. */
export type Interval = { readonly low: number; readonly high: number };

/** The 0.975 quantile of the standard normal distribution. */
const Z95 = 1.959963984540054;

/** What P10 to P90 promises: eight in ten. */
export const PROMISED = 0.8;

/** From so many items on, a coverage that agrees with the promise says something. */
const ENOUGH = 30;
/** And from so many on, one that disagrees: that one job lies outside happens once in five where all is well. */
const SOME = 5;

/**
 * Wilson interval: how large a share may be in the long run, seen that it was `within` of `of`.
 *
 *     (p + z²/2n ± z·√(p(1 − p)/n + z²/4n²)) / (1 + z²/n),  p = within/of, n = of, z = 1.96
 *
 * Wilson 1927, J. Am. Stat. Assoc. 22(158); the tests hold it against the worked examples of Newcombe
 * 1998, Stat. Med. 17(8), and a reference library.
 *
 * @param within how many, a whole number from 0 to `of`
 * @param of of how many, a whole number of 1 or more
 * @throws RangeError for anything else
 * @example wilsonInterval(20, 20).high // → 1
 */
export function wilsonInterval(within: number, of: number): Interval {
  if (!Number.isInteger(of) || of < 1)
    throw new RangeError(`Of how many must be a whole number of 1 or more; got ${of}.`);
  if (!Number.isInteger(within) || within < 0 || within > of)
    throw new RangeError(`How many must be a whole number from 0 to ${of}; got ${within}.`);
  const p = within / of;
  const square = Z95 ** 2;
  const middle = p + square / (2 * of);
  const half = Z95 * Math.sqrt((p * (1 - p)) / of + square / (4 * of ** 2));
  const whole = 1 + square / of;
  return {
    // Exactly nothing and exactly all, where rounding would leave a crumb.
    low: within === 0 ? 0 : (middle - half) / whole,
    high: within === of ? 1 : (middle + half) / whole,
  };
}

/** Do the ranges hold? `too_few`: so few items say little. */
export type Verdict = 'too_few' | 'agrees' | 'too_narrow' | 'too_wide';

/** How many clocked hours came out inside the range that was quoted. */
export type Coverage = {
  readonly items: number;
  readonly within: number;
  readonly under: number;
  readonly over: number;
  readonly interval: Interval;
  readonly verdict: Verdict;
};

/** A quoted range and what the clock said, hands-on hours. */
export type QuotedAndClocked = {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly actual: number;
};

/**
 * Coverage: how many items came out between P10 and P90, both included, and what may be said of it.
 * The ranges are too narrow where the whole Wilson interval lies under eight in ten, too wide where
 * it lies above; fewer than five items convict nothing.
 *
 * @returns null for no items: nothing can be said
 * @example coverageOf([{ p10: 1, p50: 2, p90: 4, actual: 3 }])?.within // → 1
 */
export function coverageOf(items: readonly QuotedAndClocked[]): Coverage | null {
  if (items.length === 0) return null;
  const under = items.filter(({ p10, actual }) => actual < p10).length;
  const over = items.filter(({ p90, actual }) => actual > p90).length;
  const within = items.length - under - over;
  const interval = wilsonInterval(within, items.length);
  const verdict = coverageVerdict(interval, items.length);
  return { items: items.length, within, under, over, interval, verdict };
}

/**
 * What may be said of a coverage: too narrow where its whole interval lies under eight in ten, too wide where it lies
 * above; of fewer than five items neither.
 *
 * @param interval of the share within
 * @param items behind it
 * @example coverageVerdict({ low: 0.5, high: 0.7 }, 100) // → 'too_narrow'
 */
export function coverageVerdict({ low, high }: Interval, items: number): Verdict {
  if (items < SOME) return 'too_few';
  if (high < PROMISED) return 'too_narrow';
  if (low > PROMISED) return 'too_wide';
  return items < ENOUGH ? 'too_few' : 'agrees';
}

const perCent = (share: number): string => `${Math.round(share * 100)} %`;

/**
 * Coverage in words: how many, how far that can be trusted, and what follows.
 *
 * @example coverageSentence(coverageOf([{ p10: 1, p50: 2, p90: 4, actual: 3 }])) // → '1 of 1 came out between P10 and P90; eight in ten should. So few say little: in the long run it may be anything from 21 % to 100 %.'
 */
export function coverageSentence({ items, within, under, over, ...said }: Coverage): string {
  const range = `anything from ${perCent(said.interval.low)} to ${perCent(said.interval.high)}`;
  const counted = `${within} of ${items} came out between P10 and P90; eight in ten should.`;
  if (said.verdict === 'too_few')
    return `${counted} So few say little: in the long run it may be ${range}.`;
  if (said.verdict === 'agrees')
    return `${counted} That agrees: in the long run it may be ${range}.`;
  if (said.verdict === 'too_wide')
    return `${counted} The ranges quoted are wider than they need be: even by chance it would hardly be so many.`;
  const which = over >= under ? `${over} took longer than P90` : `${under} took less than P10`;
  return `${counted} The ranges quoted are too narrow, and chance does not explain it: ${which}.`;
}
