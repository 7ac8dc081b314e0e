import { clockText, hoursText } from '../../lib/figures/hours.ts';
import { wallOf } from '../../lib/shop-time.ts';
import type { Forgotten } from './bench-documents.ts';

const weekdays = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

/**
 * A time as somebody remembers it: the weekday and what the wall clock showed.
 *
 * @example rememberedAt('2031-05-05T15:00:00.000Z', 'UTC') // → 'Monday, 15:00'
 */
export function rememberedAt(instant: string, timeZone: string): string {
  const wall = wallOf(instant, timeZone);
  return `${weekdays[new Date(`${wall}:00Z`).getUTCDay()] ?? ''}, ${wall.slice(11)}`;
}

/**
 * Why a clock looks as if it had been left running, in a sentence.
 *
 * @param whose `your`, or of whom a list speaks: `Ruan’s`
 * @param now the shop's time, milliseconds since 1970
 */
export function whyWords(
  {
    why,
    startedAt,
    endedAt,
    p99Hours,
  }: Pick<Forgotten, 'why' | 'startedAt' | 'endedAt' | 'p99Hours'>,
  whose: string,
  now: number,
): string {
  const until = endedAt === null ? now : Date.parse(String(endedAt));
  const ran = clockText(Math.max(0, Math.floor((until - Date.parse(String(startedAt))) / 1000)));
  const length = endedAt === null ? `It has run ${ran} h` : `It ran ${ran} h`;
  switch (why) {
    case 'ran_past_hours':
      return `${length}, on past the end of ${whose} hours.`;
    case 'ran_very_long':
      return `${length}, and nothing says when ${whose} day ends.`;
    case 'longer_than_such_jobs':
      return p99Hours === null
        ? `${length}, longer than such work takes.`
        : `${length}; 99 in 100 pieces of work like it take less than ${hoursText(p99Hours)} h altogether.`;
  }
}

/** Where a suggested time comes from. */
export const suggestionWords = (
  { at, kind, what }: Forgotten['suggestions'][number],
  whose: 'your' | 'their',
  timeZone: string,
): string =>
  kind === 'end_of_hours'
    ? // Whoever began outside of their hours is taken to have gone by the end of the day.
      wallOf(String(at), timeZone).endsWith('T00:00')
      ? 'The end of that day'
      : `The end of ${whose} hours that day`
    : `The last that ${whose === 'your' ? 'you are' : 'they are'} known to have done: ${what}`;

/** What is said where nothing else is typed; whoever stayed late says so themselves. */
export const LEFT_RUNNING = 'The clock was left running';

/** Answers beside the suggested times. */
export type OtherAnswer = 'another' | 'right';

/**
 * An answer as it goes out, or what is wrong with it.
 *
 * @param chosen a suggested time, or one of the other answers
 * @param another what was typed for another time, an instant; null where it cannot be read
 */
export function answerOf(
  { startedAt, endedAt }: Pick<Forgotten, 'startedAt' | 'endedAt'>,
  chosen: string,
  another: string | null,
  reason: string,
  now: number,
): { stoppedAt: string | null; reason: string } | { wrong: 'time' | 'reason'; words: string } {
  const stoppedAt = chosen === 'right' ? null : chosen === 'another' ? another : chosen;
  const end = endedAt === null ? now : Date.parse(String(endedAt));
  if (chosen === 'another' && stoppedAt === null)
    return { wrong: 'time', words: 'A day and a time are needed.' };
  if (stoppedAt !== null && Date.parse(stoppedAt) <= Date.parse(String(startedAt)))
    return { wrong: 'time', words: 'The clock began later than that: needed is a time after it.' };
  if (stoppedAt !== null && Date.parse(stoppedAt) > end)
    return { wrong: 'time', words: 'The clock had ended by then: needed is an earlier time.' };
  if (reason.trim().length < 3)
    return { wrong: 'reason', words: 'Say why: it stays with the answer.' };
  return { stoppedAt, reason: reason.trim() };
}
