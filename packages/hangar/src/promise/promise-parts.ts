import { type CivilDay, daysBetween, sayCivilDay } from './civil-day.ts';
import type { PromiseAsked } from './promise-asked.ts';

/** What the days until the P80 are made of. They add up to them. */
export interface PromiseParts {
  /** Days that the work itself takes, with everybody in and no other aircraft. */
  readonly work: number;
  /** Days more because people are away or the shop is closed. */
  readonly away: number;
  /** Days more because other aircraft have work for the same people. */
  readonly others: number;
  /** Days more because something has to come first. */
  readonly waits: number;
}

export interface PromiseDays {
  readonly p50: CivilDay;
  readonly p80: CivilDay;
  readonly parts: PromiseParts;
}

/** Each cause's days: what is saved when it is taken away after the ones before it. Overtime saves nothing here. */
export function partsOf(days: {
  whole: number;
  withoutWaits: number;
  alone: number;
  allIn: number;
}): PromiseParts {
  const withoutWaits = Math.min(days.withoutWaits, days.whole);
  const alone = Math.min(days.alone, withoutWaits);
  const work = Math.min(days.allIn, alone);
  return {
    work,
    away: alone - work,
    others: withoutWaits - alone,
    waits: days.whole - withoutWaits,
  };
}

const inDays = (days: number) => (days === 1 ? '1 day' : `${days} days`);

/** The two days, or the one where they are the same. */
export function sayDays({ p50, p80 }: Omit<PromiseDays, 'parts'>, from: CivilDay): string {
  const say = (day: CivilDay) => sayCivilDay(day, from);
  return p50 === p80
    ? `four times in five by ${say(p80)}`
    : `as likely as not by ${say(p50)}, four in five by ${say(p80)}`;
}

/** The days and the largest of the reasons, in one sentence. */
export function sayPromise({ parts, ...both }: PromiseDays, { from, work }: PromiseAsked): string {
  const days = sayDays(both, from.day);
  return `${days.charAt(0).toUpperCase()}${days.slice(1)}: ${becauseOf(parts, { from, work })}.`;
}

function becauseOf(parts: PromiseParts, { from, work }: Pick<PromiseAsked, 'from' | 'work'>) {
  const most = Math.max(parts.work, parts.away, parts.others, parts.waits);
  const of = inDays(parts.work + parts.away + parts.others + parts.waits);
  if (parts.work === most || most === 0) {
    const hours = hoursOf(work);
    return hours[1] === 0
      ? 'no work is left'
      : `the work itself is most of it, ${hours[0] === hours[1] ? hours[0] : `${hours[0]} to ${hours[1]}`} hands-on hours`;
  }
  const added = (count: number) => `${count} of the ${of}`;
  if (parts.waits === most) {
    const last = work
      .flatMap(({ wait }) => (wait?.until ? [{ words: wait.words, until: wait.until }] : []))
      .sort((one, other) => daysBetween(one.until, other.until))[0];
    return last
      ? `most of it is the wait for ${last.words}, until ${sayCivilDay(last.until, from.day)}: ${added(parts.waits)}`
      : `most of it is waiting: ${added(parts.waits)}`;
  }
  return parts.others === most
    ? `most of it is that other aircraft have work for the same people: ${added(parts.others)}`
    : `most of it is that people are away or the shop is closed: ${added(parts.away)}`;
}

/** P50 and P80 of all hours left, to a tenth. */
function hoursOf(work: PromiseAsked['work']): [number, number] {
  const sums = Float64Array.from({ length: work[0]?.draws.length ?? 0 }, (_, draw) =>
    work.reduce((sum, { draws }) => sum + draws[draw]!, 0),
  ).sort();
  const at = (share: number) =>
    Math.round((sums[Math.min(sums.length - 1, Math.ceil(share * sums.length) - 1)] ?? 0) * 10) /
    10;
  return [at(0.5), at(0.8)];
}
