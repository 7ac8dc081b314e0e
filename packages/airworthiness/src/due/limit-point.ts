import { formatHours, hundredths, type TimeInService } from '../hours.ts';
import { type CivilDay, readDay, writeDay } from './civil-days.ts';
import {
  type Compliance,
  type Counter,
  type Counts,
  counters,
  type DueItem,
  type Limit,
} from './due-item.ts';

/** Where something is due, without its sentence. */
export interface Point extends Counts {
  readonly date?: CivilDay | undefined;
  readonly tis?: TimeInService | undefined;
}

/** Where a rule puts the due point, before it is compared with where the aircraft stands. */
export interface DuePoint extends Point {
  readonly limitTis?: TimeInService | undefined;
  readonly because: string;
}

export const hoursWords = (time: TimeInService) => `${formatHours(time)} h`;
export const countWords = (counter: Counter, many: number) =>
  `${many} ${many === 1 ? counter.slice(0, -1) : counter}`;

const named = ({ id }: DueItem) => `Item ${JSON.stringify(id)}`;
const MOST_HUNDREDTHS = 100_000_000;
const LAST_DAY = readDay('9999-12-31');

/** @throws RangeError for more hours than any aircraft flies: a figure was mistaken for another */
export function atHours(item: DueItem, from: TimeInService, interval: number): TimeInService {
  if (from + interval > MOST_HUNDREDTHS)
    throw new RangeError(
      `${named(item)} would fall due at ${formatHours((from + interval) as TimeInService)} h; at most ${MOST_HUNDREDTHS / 100} h can be reckoned: check its hours`,
    );
  return hundredths(from + interval);
}

/** @throws RangeError past the last day that ISO 8601 writes with four digits */
export function onDay(item: DueItem, day: CivilDay): CivilDay {
  if (day > LAST_DAY)
    throw new RangeError(
      `${named(item)} would fall due after ${writeDay(LAST_DAY)}, the last day that can be written: check its dates and intervals`,
    );
  return day;
}

/** The point that a limit names. */
export function limitPoint(item: DueItem, limit: Limit): Point {
  const { hours: tis, date } = limit;
  const point: { -readonly [Each in keyof Point]: Point[Each] } = {};
  let any = tis !== undefined || date !== undefined;
  if (tis !== undefined) point.tis = tis;
  for (const counter of counters) {
    const count = limit[counter];
    if (count === undefined) continue;
    any = true;
    point[counter] = count;
  }
  if (date !== undefined) point.date = date;
  if (!any)
    throw new RangeError(
      `${named(item)} of rule ${item.rule} needs hours, ${counters.join(', ')} or a date in limit`,
    );
  return point;
}

/** What is not to be flown past, in words. */
export function limitWords({ whichever }: DueItem, limit: Limit): string {
  const { hours, date } = limit;
  const said = [
    ...(hours === undefined ? [] : [hoursWords(hours)]),
    ...eachCount(limit),
    ...(date === undefined ? [] : [writeDay(date)]),
  ];
  return said.join(' or ') + (said.length > 1 ? `, whichever comes ${whichever}` : '');
}

/** When something was done, in words. */
export function doneWords(last: Compliance): string {
  const { date, tis } = last;
  const said = [
    ...(date === undefined ? [] : [writeDay(date)]),
    ...(tis === undefined ? [] : [hoursWords(tis)]),
    ...eachCount(last),
  ];
  return said.length === 0 ? '' : ` (${said.join(', ')})`;
}

function eachCount(counts: Counts): string[] {
  const said: string[] = [];
  for (const counter of counters) {
    const many = counts[counter];
    if (many !== undefined) said.push(countWords(counter, many));
  }
  return said;
}
