import { formatHours, hundredths, type TimeInService } from '../hours.ts';
import { hundredHourDue } from '../inspections-due.ts';
import { type CivilDay, endOfMonthAfter, plusMonths, writeDay } from './civil-days.ts';
import type { Compliance, DueItem, Interval, Limit } from './due-item.ts';

/** Where a rule puts the due point, before it is compared with where the aircraft stands. */
export interface DuePoint {
  readonly date?: CivilDay | undefined;
  readonly tis?: TimeInService | undefined;
  readonly cycles?: number | undefined;
  readonly limitTis?: TimeInService | undefined;
  readonly because: string;
}
const hours = (time: TimeInService) => `${formatHours(time)} h`;

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
      const next = hundredHourDue({ doneAt, ...(previousDue !== undefined && { previousDue }) });
      return { tis: next.due, limitTis: next.enRouteLimit, because: next.because };
    }
    case 'annual': {
      const doneOn = needed(item, last?.date, 'last.date, the day it was approved');
      const date = endOfMonthAfter(doneOn, 12);
      return {
        date,
        because: `Approved ${writeDay(doneOn)}, good through ${writeDay(date)}, the end of the month 12 calendar months on (14 CFR 91.409(a))`,
      };
    }
    case 'calendar_months': {
      const months = needed(item, item.every?.calendarMonths, 'every.calendarMonths');
      const doneOn = needed(item, last?.date, 'last.date, the day it was done');
      const date = endOfMonthAfter(doneOn, months);
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
      return onceBy(item, needed(item, item.limit, 'limit'));
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

const asks = '(as its directive or programme says; 14 CFR part 39 gives no allowance of its own)';

function repeated(item: DueItem, every: Interval): DuePoint {
  const { last = {}, whichever } = item;
  const points: DuePoint[] = [];
  const words: string[] = [];
  const dates: number[] = [];
  const add = (interval: number | undefined, name: string, work: (interval: number) => void) => {
    if (interval === undefined) return;
    words.push(`${name}`);
    work(interval);
  };
  add(every.hours, every.hours === undefined ? '' : hours(every.hours), (interval) => {
    const from = needed(item, last.tis, 'last.tis, since it counts hours');
    points.push({ tis: hundredths(from + interval), because: '' });
  });
  add(every.cycles, `${every.cycles} cycles`, (interval) => {
    const from = needed(item, last.cycles, 'last.cycles, since it counts cycles');
    points.push({ cycles: from + interval, because: '' });
  });
  const fromDay = () => needed(item, last.date, 'last.date, since it counts by the calendar');
  add(every.days, `${every.days} days`, (days) => dates.push(fromDay() + days));
  add(every.months, `${every.months} months to the day`, (months) =>
    dates.push(plusMonths(fromDay(), months)),
  );
  add(every.calendarMonths, `${every.calendarMonths} calendar months`, (months) =>
    dates.push(endOfMonthAfter(fromDay(), months)),
  );
  if (words.length === 0) needed(item, undefined, 'at least one interval in every');
  const date =
    dates.length === 0 ? undefined : whichever === 'last' ? Math.max(...dates) : Math.min(...dates);
  const due = Object.assign({}, ...points, date !== undefined && { date }) as DuePoint;
  const capped = item.limit === undefined ? due : notPast(item, due, item.limit);
  const which = words.length > 1 ? `, whichever comes ${whichever},` : '';
  const cap = item.limit === undefined ? '' : `, not past ${limitWords(item, item.limit)},`;
  return {
    ...capped,
    because: `${words.join(' or ')}${which}${cap} from the last time${doneWords(last)} ${asks}`,
  };
}

/** What is repeated, but not past a limit. */
function notPast(item: DueItem, due: DuePoint, limit: Limit): Omit<DuePoint, 'because'> {
  if (item.whichever === 'last')
    throw new RangeError(
      `Item ${JSON.stringify(item.id)} comes at whichever is last and has a limit that comes first: give one of the two`,
    );
  const cap = limitPoint(item, limit);
  const least = (one: number | undefined, other: number | undefined) =>
    one === undefined || other === undefined ? (one ?? other) : Math.min(one, other);
  return {
    date: least(due.date, cap.date),
    tis: least(due.tis, cap.tis) as TimeInService | undefined,
    cycles: least(due.cycles, cap.cycles),
  };
}

function doneWords({ date, tis, cycles }: Compliance): string {
  const said = [
    ...(date === undefined ? [] : [writeDay(date)]),
    ...(tis === undefined ? [] : [hours(tis)]),
    ...(cycles === undefined ? [] : [`${cycles} cycles`]),
  ];
  return said.length === 0 ? '' : ` (${said.join(', ')})`;
}

/** Never done yet: its first time is its limit. */
function firstTime(item: DueItem): DuePoint {
  const limit = needed(item, item.limit, 'last, or for its first time a limit');
  return {
    ...limitPoint(item, limit),
    because: `Never done; its first time is by ${limitWords(item, limit)} ${asks}`,
  };
}

function limitPoint(item: DueItem, limit: Limit): Omit<DuePoint, 'because'> {
  const { hours: tis, cycles, date } = limit;
  if (tis === undefined && cycles === undefined && date === undefined)
    needed(item, undefined, 'hours, cycles or a date in limit');
  return {
    ...(tis !== undefined && { tis }),
    ...(cycles !== undefined && { cycles }),
    ...(date !== undefined && { date }),
  };
}

function limitWords({ whichever }: DueItem, { hours: tis, cycles, date }: Limit): string {
  const said = [
    ...(tis === undefined ? [] : [hours(tis)]),
    ...(cycles === undefined ? [] : [`${cycles} cycles`]),
    ...(date === undefined ? [] : [writeDay(date)]),
  ];
  return said.join(' or ') + (said.length > 1 ? `, whichever comes ${whichever}` : '');
}

function lifeOf(item: DueItem, limit: Limit): DuePoint {
  const fitted = item.last ?? {};
  const began = {
    ...limit,
    ...(limit.hours !== undefined && { hours: hundredths((fitted.tis ?? 0) + limit.hours) }),
    ...(limit.cycles !== undefined && { cycles: (fitted.cycles ?? 0) + limit.cycles }),
  };
  const from = item.last === undefined ? '' : `, fitted new${doneWords(fitted)}`;
  return {
    ...limitPoint(item, began),
    because: `Life limit of ${limitWords(item, limit)}${from}: to be off the aircraft by then (14 CFR 43.10, 91.417(a)(2))`,
  };
}

function onceBy(item: DueItem, limit: Limit): DuePoint {
  if (item.last !== undefined)
    return { because: `Done${doneWords(item.last)}; it is asked once (14 CFR part 39)` };
  return {
    ...limitPoint(item, limit),
    because: `Once, by ${limitWords(item, limit)}: not flown past it undone (14 CFR part 39)`,
  };
}
