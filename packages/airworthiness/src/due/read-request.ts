import { hundredths, parseHours, type TimeInService } from '../hours.ts';
import { readDay } from './civil-days.ts';
import { refuseContradiction } from './contradiction.ts';
import {
  type Compliance,
  type Counts,
  counters,
  type DueItem,
  type DueRule,
  dueRules,
  type Interval,
  type Limit,
  type Soon,
  type Standing,
} from './due-item.ts';

type Fields = Readonly<Record<string, unknown>>;

export interface DueRequest {
  readonly at: Standing;
  readonly items: readonly DueItem[];
  readonly soon: Soon;
}

/**
 * A request as somebody wrote it in JSON, checked field by field: `{at: {date, tis, cycles?, landings?,
 * starts?}, items: [{id, rule, every?,
 * whichever?, last?, enRoute?, limit?}], soon?: {hours, days}}`. Hours are numbers or text with at most two decimals, days
 * of the calendar ISO 8601. Soon is 10 h or 30 days unless said.
 *
 * @throws TypeError or RangeError that names the field, what was given and what is needed
 * @example readDueRequest({ at: { date: '2026-03-02', tis: 1300 }, items: [] }).at.tis // → 130000
 */
export function readDueRequest(value: unknown): DueRequest {
  const request = fields(value, 'The request', ['at', 'items', 'soon']);
  const at = fields(request['at'], 'at', ['date', 'tis', ...counters]);
  if (!Array.isArray(request['items']))
    throw new TypeError(`items is ${said(request['items'])}; a list is needed.`);
  const ids = new Set<string>();
  const items = request['items'].map((each: unknown, index) => {
    const item = readItem(each, `items[${index}]`);
    if (ids.has(item.id))
      throw new RangeError(`Two items have the id ${JSON.stringify(item.id)}: give each its own.`);
    ids.add(item.id);
    return item;
  });
  return {
    at: {
      date: day(at['date'], 'at.date'),
      tis: hours(at['tis'], 'at.tis'),
      ...countsOf(at, 'at', wholeFrom0),
    },
    items,
    soon: readSoon(request['soon']),
  };
}

function readSoon(value: unknown): Soon {
  if (value === undefined || value === null) return { hours: hundredths(10_00), days: 30 };
  const soon = fields(value, 'soon', ['hours', 'days']);
  return {
    hours: optional(soon, 'hours', 'soon', hours) ?? hundredths(10_00),
    days: optional(soon, 'days', 'soon', wholeFrom0) ?? 30,
  };
}

const itemFields = ['id', 'rule', 'every', 'whichever', 'last', 'enRoute', 'limit'];

function readItem(value: unknown, path: string): DueItem {
  const item = fields(value, path, itemFields);
  const { id, rule } = item;
  const whichever = item['whichever'] ?? 'first';
  const enRoute = item['enRoute'] ?? false;
  if (typeof id !== 'string' || id.trim() === '')
    throw new TypeError(`${path}.id is ${said(id)}; text is needed.`);
  if (!dueRules.includes(rule as DueRule))
    throw new RangeError(`${path}.rule is ${said(rule)}; one of ${dueRules.join(', ')} is needed.`);
  if (whichever !== 'first' && whichever !== 'last')
    throw new RangeError(`${path}.whichever is ${said(whichever)}; "first" or "last" is needed.`);
  if (typeof enRoute !== 'boolean')
    throw new TypeError(`${path}.enRoute is ${said(enRoute)}; true or false is needed.`);
  const every = optional(item, 'every', path, readInterval);
  const last = optional(item, 'last', path, readCompliance);
  const limit = optional(item, 'limit', path, readLimit);
  const read: DueItem = {
    ...{ id, rule: rule as DueRule, whichever, enRoute },
    ...(every && { every }),
    ...(last && { last }),
    ...(limit && { limit }),
  };
  refuseContradiction(read, path);
  return read;
}

function readInterval(value: unknown, path: string): Interval {
  const given = fields(value, path, ['hours', 'months', 'calendarMonths', 'days', ...counters]);
  return filled({
    hours: optional(given, 'hours', path, positiveHours),
    months: optional(given, 'months', path, count),
    calendarMonths: optional(given, 'calendarMonths', path, count),
    days: optional(given, 'days', path, count),
    ...countsOf(given, path, count),
  });
}

function readCompliance(value: unknown, path: string): Compliance {
  const given = fields(value, path, ['date', 'tis', ...counters, 'dueAtTis']);
  const done = filled({
    date: optional(given, 'date', path, day),
    tis: optional(given, 'tis', path, hours),
    ...countsOf(given, path, wholeFrom0),
  });
  // Else what nobody did would count as done.
  if (Object.keys(done).length === 0)
    throw new RangeError(
      `${path} is ${said(value)}, which does not tell when it was done; date, tis, ${counters.join(', ')}, or several of them are needed, or no last at all.`,
    );
  const dueAtTis = optional(given, 'dueAtTis', path, hours);
  return { ...done, ...(dueAtTis !== undefined && { dueAtTis }) };
}

function readLimit(value: unknown, path: string): Limit {
  const given = fields(value, path, ['hours', ...counters, 'date']);
  return filled({
    hours: optional(given, 'hours', path, positiveHours),
    ...countsOf(given, path, count),
    date: optional(given, 'date', path, day),
  });
}

const countsOf = (
  given: Fields,
  path: string,
  read: (value: unknown, path: string) => number,
): Counts =>
  filled(
    Object.fromEntries(counters.map((counter) => [counter, optional(given, counter, path, read)])),
  );

function optional<T>(
  given: Fields,
  name: string,
  path: string,
  read: (value: unknown, path: string) => T,
): T | undefined {
  const value = given[name];
  return value === undefined || value === null ? undefined : read(value, `${path}.${name}`);
}

const filled = <T extends object>(given: T): T =>
  Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as T;

/** An object with no other fields than these: one misspelt would silently count for nothing. */
function fields(value: unknown, path: string, names: readonly string[]): Fields {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new TypeError(`${path} is ${said(value)}; an object is needed.`);
  const unknown = Object.keys(value).find((name) => !names.includes(name));
  if (unknown !== undefined)
    throw new TypeError(`${path} has a field "${unknown}"; it may have ${names.join(', ')}.`);
  return value as Fields;
}

function day(value: unknown, path: string): number {
  if (typeof value !== 'string')
    throw new TypeError(`${path} is ${said(value)}; a day such as "2026-03-14" is needed.`);
  return readDay(value, path);
}

function hours(value: unknown, path: string): TimeInService {
  const text = typeof value === 'number' ? `${value}` : value;
  if (typeof text !== 'string' || !/^\d{1,7}(\.\d{1,2})?$/.test(text))
    throw new RangeError(
      `${path} is ${said(value)}; hours from 0 with at most two decimals are needed, such as 1234.5.`,
    );
  if (Number(text) > MOST_HOURS)
    throw new RangeError(`${path} is ${said(value)}; at most ${MOST_HOURS} hours are needed.`);
  return parseHours(text);
}

/** A thousand aircraft lives. */
const MOST_HOURS = 1_000_000;

function positiveHours(value: unknown, path: string): TimeInService {
  const given = hours(value, path);
  if (given === 0) throw new RangeError(`${path} is ${said(value)}; more than 0 hours are needed.`);
  return given;
}

/** Longer than any part lives, in cycles, days or months: above it a field was mistaken. */
const MOST = 1_000_000;

function wholeFrom0(value: unknown, path: string): number {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 0 || value > MOST)
    throw new RangeError(`${path} is ${said(value)}; a whole number from 0 to ${MOST} is needed.`);
  return value;
}

function count(value: unknown, path: string): number {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 1 || value > MOST)
    throw new RangeError(`${path} is ${said(value)}; a whole number from 1 to ${MOST} is needed.`);
  return value;
}

function said(value: unknown): string {
  if (value === undefined) return 'missing';
  const written = JSON.stringify(value);
  return written.length > 60 ? `${written.slice(0, 60)}…` : written;
}
