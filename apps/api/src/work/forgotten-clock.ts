const HOUR_MS = 3_600_000;

/** Overtime of an hour is nothing to ask about (common practice, no source). */
export const GRACE_MS = HOUR_MS;
/** So long after the end of their hours somebody is asked: by the next morning, and not while they may be at it (common practice, no source). */
export const ASKED_AFTER_MS = 8 * HOUR_MS;
/** Where nobody has said when people are in, a clock that ran this long is asked about (common practice, no source). */
export const LONGEST_MS = 12 * HOUR_MS;

export type WhyForgotten = 'ran_past_hours' | 'ran_very_long' | 'longer_than_such_jobs';

/**
 * Whether a clock looks as if it had been left running, and why.
 *
 * - It ran more than an hour past the end of its person's hours, and eight hours have passed since then.
 * - Nothing says when its person is in, and it ran twelve hours.
 * - It ran longer than 99 in 100 such items take altogether.
 *
 * @param stretch `since`: from when it is asked about: its start, or when its person last said that it was right
 * @param known `end`: of the person's hours, null where nothing says when they are in; `p99Hours`: of the item's estimate,
 *   null where there is none
 * @example whyForgotten({ since: new Date(0), startedAt: new Date(0), endedAt: null }, { end: null, p99Hours: null }, new Date(13 * 3_600_000)) // → 'ran_very_long'
 */
export function whyForgotten(
  stretch: { since: Date; startedAt: Date; endedAt: Date | null },
  known: { end: Date | null; p99Hours: number | null },
  now: Date,
): WhyForgotten | null {
  const until = stretch.endedAt ?? now;
  const { end, p99Hours } = known;
  if (end && +until > +end + GRACE_MS && +now >= +end + ASKED_AFTER_MS) return 'ran_past_hours';
  if (!end && +until - +stretch.since > LONGEST_MS) return 'ran_very_long';
  const wasAnswered = +stretch.since > +stretch.startedAt;
  const hours = (+until - +stretch.startedAt) / HOUR_MS;
  return !wasAnswered && p99Hours !== null && hours > p99Hours ? 'longer_than_such_jobs' : null;
}
