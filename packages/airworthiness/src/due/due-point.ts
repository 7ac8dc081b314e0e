import { hundredths } from '../hours.ts';
import { hundredHourDue } from '../inspections-due.ts';
import { endOfMonthAfter, writeDay } from './civil-days.ts';
import { counters, type DueItem, type Interval, type Limit } from './due-item.ts';
import { atHours, type DuePoint, doneWords, limitPoint, limitWords, onDay } from './limit-point.ts';
import { asks, repeated } from './repeated.ts';

/**
 * Where a rule puts the due point of an item, with its sentence. `standOf` says which rules there are.
 *
 * @throws RangeError for an item that lacks what its rule counts from, or contradicts itself
 */
export function pointOf(item: DueItem): DuePoint {
  const { rule, last } = item;
  refuseWhatRuleLacks(item);
  switch (rule) {
    case 'hundred_hour': {
      const doneAt = needed(item, last?.tis, 'last.tis, the time in service when it was done');
      const previousDue = last?.dueAtTis;
      // With the hours that may be flown past it.
      atHours(item, doneAt, 110_00);
      const next = hundredHourDue({ doneAt, ...(previousDue !== undefined && { previousDue }) });
      return { tis: next.due, limitTis: next.enRouteLimit, because: next.because };
    }
    case 'annual': {
      const doneOn = needed(item, last?.date, 'last.date, the day it was approved');
      const date = onDay(item, endOfMonthAfter(doneOn, 12));
      return {
        date,
        because: `Approved ${writeDay(doneOn)}, good through ${writeDay(date)}, the end of the month 12 calendar months on (14 CFR 91.409(a))`,
      };
    }
    case 'calendar_months': {
      const months = needed(item, item.every?.calendarMonths, 'every.calendarMonths');
      const doneOn = needed(item, last?.date, 'last.date, the day it was done');
      const date = onDay(item, endOfMonthAfter(doneOn, months));
      return {
        date,
        because: `Done ${writeDay(doneOn)}, good through ${writeDay(date)}, the end of the month ${months} calendar months on (calendar months, as in 14 CFR 91.411, 91.413 and 91.207(d))`,
      };
    }
    case 'recurring':
      return last === undefined
        ? firstTime(item)
        : repeated(item, needed(item, item.every, 'every'));
    case 'life_limit':
      return lifeOf(item, needed(item, item.limit, 'limit'));
    case 'once':
      return onceBy(item);
  }
}

/** What a rule fixes itself, or has no use for, is not passed over in silence. */
function refuseWhatRuleLacks({ id, rule, every, limit }: DueItem): void {
  const refuse = (what: string) => {
    throw new RangeError(`Item ${JSON.stringify(id)} of rule ${rule} ${what}`);
  };
  const only = (name: keyof Interval, value: number, words: string) => {
    const others = Object.entries(every ?? {}).some(
      ([key, given]) => given !== undefined && !(key === name && given === value),
    );
    if (others) refuse(`is every ${words}; leave every out, or take the rule recurring`);
  };
  if (rule === 'hundred_hour') only('hours', 100_00, '100 hours');
  if (rule === 'annual') only('calendarMonths', 12, '12 calendar months');
  if (rule === 'calendar_months')
    only('calendarMonths', every?.calendarMonths ?? 0, 'so many calendar months');
  if ((rule === 'life_limit' || rule === 'once') && every !== undefined)
    refuse('has no interval: leave every out, or take the rule recurring');
  const limited = rule === 'life_limit' || rule === 'once' || rule === 'recurring';
  if (!limited && limit !== undefined) refuse('has no limit of its own: leave limit out');
}

function needed<T>({ id, rule }: DueItem, value: T | undefined, what: string): T {
  if (value === undefined)
    throw new RangeError(`Item ${JSON.stringify(id)} of rule ${rule} needs ${what}`);
  return value;
}

/** Never done yet: its first time is its limit. */
function firstTime(item: DueItem): DuePoint {
  const limit = needed(item, item.limit, 'last, or for its first time a limit');
  return {
    ...limitPoint(item, limit),
    because: `Never done; its first time is by ${limitWords(item, limit)} ${asks}`,
  };
}

/** A life runs from when the part had no time on it. */
function lifeOf(item: DueItem, limit: Limit): DuePoint {
  const fitted = item.last ?? {};
  const began: { -readonly [Each in keyof Limit]: Limit[Each] } = { ...limit };
  if (limit.hours !== undefined)
    began.hours = atHours(item, fitted.tis ?? hundredths(0), limit.hours);
  for (const counter of counters) {
    const count = limit[counter];
    if (count !== undefined) began[counter] = (fitted[counter] ?? 0) + count;
  }
  const from = item.last === undefined ? '' : `, fitted new${doneWords(fitted)}`;
  return {
    ...limitPoint(item, began),
    because: `Life limit of ${limitWords(item, limit)}${from}: to be off the aircraft by then (14 CFR 43.10, 91.417(a)(2))`,
  };
}

function onceBy(item: DueItem): DuePoint {
  if (item.last !== undefined)
    return { because: `Done${doneWords(item.last)}; it is asked once (14 CFR part 39)` };
  const limit = needed(item, item.limit, 'limit');
  return {
    ...limitPoint(item, limit),
    because: `Once, by ${limitWords(item, limit)}: not flown past it undone (14 CFR part 39)`,
  };
}
