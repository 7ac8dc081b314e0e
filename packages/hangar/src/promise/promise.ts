import { type CivilDay, dayAfter, daysBetween, sayCivilDay } from './civil-day.ts';
import { dayOfShare, finishDays, type Released } from './finish-days.ts';
import { freeMinutes } from './hand-minutes.ts';
import type { PromiseAsked, PromisedWork } from './promise-asked.ts';
import { type PromiseDays, partsOf, sayDays, sayPromise } from './promise-parts.ts';

/** When an aircraft is ready, or why nobody can say. */
export type ReturnPromise =
  | ({ readonly kind: 'promised'; readonly sentence: string } & PromiseDays)
  | {
      readonly kind: 'not_known';
      /** What has to be known first. */
      readonly waits: readonly string[];
      /** If all of it came at once. */
      readonly atBest: { readonly p50: CivilDay; readonly p80: CivilDay } | null;
      readonly sentence: string;
    }
  | { readonly kind: 'nobody_in' | 'too_far'; readonly sentence: string };

export const HANDS_AT_ONCE = 2;

/**
 * When do I get it back: the day by which the work is as likely done as not (P50), and the day by which it is in four
 * cases of five (P80), with what makes it so long.
 *
 * Every draw of the hours is worked off day by day: by the people who are in, at most `handsAtOnce` of them on this
 * aircraft, in an equal part where other aircraft have work too (see `freeMinutes`), and not before what it waits for is
 * there (see `finishDays`). The days are quantiles of the days on which the draws end. Same input, same days.
 *
 * Left out, since the planning of the whole floor is another job: who is entitled to what, turns among the aircraft, bays
 * and tools, work that only one person fits at, and the time that inspecting and signing take.
 *
 * @returns a typed outcome: `not_known` while nobody can say when something comes, `nobody_in` where nobody is in on any
 * of the days, `too_far` where it is not done by the last of them
 * @throws RangeError for hours below 0 or not finite, work of unequal numbers of draws, days out of order, hands below 1
 * @example promiseOf({ from: { day: '2026-12-01', minute: 0 }, days: [{ day: '2026-12-01', people: [[{ fromMinute: 480, toMinute: 960 }]] }], work: [{ draws: [4, 8] }] }).kind // → 'promised'
 */
export function promiseOf(asked: PromiseAsked): ReturnPromise {
  refuseUnusable(asked);
  const { from, days, work, handsAtOnce: hands = HANDS_AT_ONCE, others = [] } = asked;
  const lastDay = days.at(-1)!.day;
  const unknown = work.flatMap(({ wait }) => (wait?.until === null ? [wait.words] : []));
  const free = freeMinutes(days, { from, hands, others });
  const ends = daysOf(finishDays(free, work.map(releasedFrom(from.day))));
  if (unknown.length > 0) {
    const waits = [...new Set(unknown)];
    const atBest = ends && {
      p50: dayAfter(from.day, ends.p50),
      p80: dayAfter(from.day, ends.p80),
    };
    const best = atBest ? ` If it came now: ${sayDays(atBest, from.day)}.` : '';
    return {
      kind: 'not_known',
      waits,
      atBest,
      sentence: `No day can be promised until it is known when this comes: ${listOf(waits)}.${best}`,
    };
  }
  if (ends === null) {
    if (free.every((minutes) => minutes === 0))
      return {
        kind: 'nobody_in',
        sentence: `No day can be promised: nobody is in from ${sayCivilDay(from.day, from.day)} to ${sayCivilDay(lastDay, from.day)}.`,
      };
    return {
      kind: 'too_far',
      sentence: `No day can be promised: with the people who are in, the work may not be done by ${sayCivilDay(lastDay, from.day)}.`,
    };
  }
  const plain = { from, hands };
  const within = (minutes: Float64Array, released: readonly Released[]) =>
    daysOf(finishDays(minutes, released))?.p80 ?? ends.p80;
  const anytime = work.map(({ draws }) => ({ draws, from: 0 }));
  const promised = {
    p50: dayAfter(from.day, ends.p50),
    p80: dayAfter(from.day, ends.p80),
    parts: partsOf({
      // What is left when one cause after the other is taken away: so the parts add up.
      whole: ends.p80,
      withoutWaits: within(free, anytime),
      alone: within(freeMinutes(days, { ...plain, others: [] }), anytime),
      allIn: within(freeMinutes(days, { ...plain, others: [], asUsual: true }), anytime),
    }),
  };
  return { kind: 'promised', ...promised, sentence: sayPromise(promised, asked) };
}

function daysOf(done: Uint32Array): { p50: number; p80: number } | null {
  const [p50, p80] = [dayOfShare(done, 0.5), dayOfShare(done, 0.8)];
  return p50 === null || p80 === null ? null : { p50, p80 };
}

/** What came before the first day holds nothing up any more; what nobody knows is taken as there, for `atBest`. */
const releasedFrom =
  (first: CivilDay) =>
  ({ draws, wait }: PromisedWork): Released => ({
    draws,
    from: wait?.until ? Math.max(0, daysBetween(first, wait.until)) : 0,
  });

const listOf = (words: readonly string[]) =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

function refuseUnusable({ from, days, work, handsAtOnce = 1, others = [] }: PromiseAsked): void {
  if (!Number.isInteger(handsAtOnce) || handsAtOnce < 1)
    throw new RangeError(`${handsAtOnce} people at once: give a whole number of 1 or more`);
  if (!(from.minute >= 0 && from.minute <= 1440))
    throw new RangeError(`Minute ${from.minute} is in no day: give 0 to 1440`);
  const out = days.findIndex(({ day }, index) => daysBetween(from.day, day) !== index);
  if (days.length === 0 || out >= 0)
    throw new RangeError(
      `Day ${Math.max(out, 0) + 1} is ${days[out]?.day ?? 'missing'}: give the days from ${from.day} on, one after the other`,
    );
  const draws = work[0]?.draws.length ?? 1;
  if (draws === 0 || work.some((each) => each.draws.length !== draws))
    throw new RangeError('Give all work the same number of draws, 1 or more');
  for (const hours of [
    ...work.flatMap((each) => Array.from(each.draws)),
    ...others.map((other) => other.hours),
  ])
    if (!(hours >= 0 && hours < Number.POSITIVE_INFINITY))
      throw new RangeError(`${hours} hours cannot be worked: give a finite number of 0 or more`);
}
