import type { TimeInService } from '../hours.ts';
import { endOfMonthAfter, plusMonths } from './civil-days.ts';
import { type Compliance, counters, type DueItem, type Interval, type Limit } from './due-item.ts';
import {
  atHours,
  countWords,
  type DuePoint,
  doneWords,
  hoursWords,
  limitPoint,
  limitWords,
  onDay,
  type Point,
} from './limit-point.ts';

export const asks =
  '(as its directive or programme says; 14 CFR part 39 gives no allowance of its own)';

/**
 * What is repeated, from the last time that it was done. Done early or late, the next is counted from when it was done: an
 * interval says how long it may be between two times, and nothing of it is saved up or owed.
 *
 * @throws RangeError where the last time lacks what an interval counts
 */
export function repeated(item: DueItem, every: Interval): DuePoint {
  const { last = {}, whichever } = item;
  const lacks = (what: string, counts: string) =>
    new RangeError(
      `Item ${JSON.stringify(item.id)} of rule ${item.rule} needs last.${what}, since it counts ${counts}`,
    );
  const words: string[] = [];
  const dates: number[] = [];
  const due: { -readonly [Each in keyof Point]: Point[Each] } = {};
  if (every.hours !== undefined) {
    if (last.tis === undefined) throw lacks('tis', 'hours');
    words.push(hoursWords(every.hours));
    due.tis = atHours(item, last.tis, every.hours);
  }
  for (const counter of counters) {
    const interval = every[counter];
    if (interval === undefined) continue;
    const from = last[counter];
    if (from === undefined) throw lacks(counter, counter);
    words.push(countWords(counter, interval));
    due[counter] = from + interval;
  }
  const byCalendar = (interval: number | undefined, name: string, after: typeof plusMonths) => {
    if (interval === undefined) return;
    if (last.date === undefined) throw lacks('date', 'by the calendar');
    words.push(`${interval} ${name}`);
    dates.push(onDay(item, after(last.date, interval)));
  };
  byCalendar(every.days, 'days', (from, days) => from + days);
  byCalendar(every.months, 'months to the day', plusMonths);
  byCalendar(every.calendarMonths, 'calendar months', endOfMonthAfter);
  if (words.length === 0)
    throw new RangeError(
      `Item ${JSON.stringify(item.id)} of rule ${item.rule} needs at least one interval in every`,
    );
  if (dates.length > 0) due.date = whichever === 'last' ? Math.max(...dates) : Math.min(...dates);
  const capped = item.limit === undefined ? due : notPast(item, due, item.limit);
  const which = words.length > 1 ? `, whichever comes ${whichever},` : '';
  const cap = item.limit === undefined ? '' : `, not past ${limitWords(item, item.limit)},`;
  return {
    ...capped,
    because: `${words.join(' or ')}${which}${cap} from the last time${doneWords(last)}${earlyOrLate(last)} ${asks}`,
  };
}

/** When that one had been due makes no difference here; said, so that nobody looks for it. */
function earlyOrLate({ tis, dueAtTis }: Compliance): string {
  if (tis === undefined || dueAtTis === undefined || tis === dueAtTis) return '';
  const away = hoursWords(Math.abs(tis - dueAtTis) as TimeInService);
  return `, ${away} ${tis < dueAtTis ? 'early' : 'late'}: counted from when it was done`;
}

/** What is repeated, but not past a limit. */
function notPast(item: DueItem, due: Point, limit: Limit): Point {
  if (item.whichever === 'last')
    throw new RangeError(
      `Item ${JSON.stringify(item.id)} comes at whichever is last and has a limit that comes first: give one of the two`,
    );
  const cap = limitPoint(item, limit);
  const least = (name: keyof Point) => {
    const [one, other] = [due[name], cap[name]];
    const value = one === undefined || other === undefined ? (one ?? other) : Math.min(one, other);
    return value === undefined ? {} : { [name]: value };
  };
  return Object.assign({}, ...(['tis', ...counters, 'date'] as const).map(least)) as Point;
}
