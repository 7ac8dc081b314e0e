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
  const counted = counters.filter((counter) => limit[counter] !== undefined);
  if (tis === undefined && date === undefined && counted.length === 0)
    throw new RangeError(
      `${named(item)} of rule ${item.rule} needs hours, ${counters.join(', ')} or a date in limit`,
    );
  return {
    ...(tis !== undefined && { tis }),
    ...Object.fromEntries(counted.map((counter) => [counter, limit[counter]])),
    ...(date !== undefined && { date }),
  };
}

/** What is not to be flown past, in words. */
export function limitWords({ whichever }: DueItem, { hours, date, ...counts }: Limit): string {
  const said = [
    ...(hours === undefined ? [] : [hoursWords(hours)]),
    ...eachCount(counts),
    ...(date === undefined ? [] : [writeDay(date)]),
  ];
  return said.join(' or ') + (said.length > 1 ? `, whichever comes ${whichever}` : '');
}

/** When something was done, in words. */
export function doneWords({ date, tis, dueAtTis: _, ...counts }: Compliance): string {
  const said = [
    ...(date === undefined ? [] : [writeDay(date)]),
    ...(tis === undefined ? [] : [hoursWords(tis)]),
    ...eachCount(counts),
  ];
  return said.length === 0 ? '' : ` (${said.join(', ')})`;
}

const eachCount = (counts: Counts) =>
  counters.flatMap((counter) => {
    const many = counts[counter];
    return many === undefined ? [] : [countWords(counter, many)];
  });
