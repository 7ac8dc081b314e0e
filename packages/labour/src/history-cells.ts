import type { Posture, Reach, Sight } from './access-conditions.ts';
import type { MechanicShare } from './history-columns.ts';
import { type Hours, hours } from './hours.ts';

/** What a cell holds, or what is wrong with it and what would be right. */
export type Cell<Value> =
  | { readonly ok: true; readonly value: Value | undefined }
  | { readonly ok: false; readonly problem: string; readonly remedy: string };

const ok = <Value>(value: Value | undefined): Cell<Value> => ({ ok: true, value });
const no = (problem: string, remedy: string) => ({ ok: false, problem, remedy }) as const;

const LONGEST_TEXT = 200;
const MOST_HOURS = 1000;
/** Before anybody maintained an aircraft: an empty or mistyped date of a spreadsheet. */
const EARLIEST = '1900-01-01';

function text(cell: string): Cell<string> {
  if (/[\p{Cc}\p{Cs}]/u.test(cell.replace(/[\n\t]/g, ''))) {
    return no('holds a control character', 'Retype it as plain text.');
  }
  if (cell.includes('\uFFFD')) {
    return no(
      'holds a character that was not UTF-8',
      'Save the file as UTF-8 and retype the word.',
    );
  }
  const { length } = [...cell];
  if (length > LONGEST_TEXT) {
    return no(`is ${length} characters long`, `Shorten it to ${LONGEST_TEXT} characters or fewer.`);
  }
  return ok(cell.normalize('NFC'));
}

/** A plain decimal number; words, hexadecimal and decimal commas are not. */
function decimal(cell: string): number | undefined {
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(cell) ? Number(cell) : undefined;
}

function hoursCell(cell: string): Cell<Hours> {
  const remedy = `Write hours above 0 and up to ${MOST_HOURS}, with a decimal point: 2.5.`;
  const value = decimal(cell);
  if (value === undefined) return no('is not a number', remedy);
  if (value <= 0) return no('is not above 0', remedy);
  if (value > MOST_HOURS) return no(`is more than ${MOST_HOURS}`, remedy);
  return ok(hours(value));
}

/** A standard is kept to a thousandth of an hour; less would be kept as none at all. */
function standardCell(cell: string): Cell<Hours> {
  const read = hoursCell(cell);
  if (!read.ok || read.value === undefined || read.value >= 0.001) return read;
  return no('is less than 0.001', 'Write the standard in hours, 0.001 or more: 0.1.');
}

function measure(cell: string, largest: number, unit: string): Cell<number> {
  const remedy = `Write 0 to ${largest} ${unit}, with a decimal point if needed, or leave it blank.`;
  const value = decimal(cell);
  if (value === undefined) return no('is not a number', remedy);
  if (value < 0) return no('is below 0', remedy);
  if (value > largest) return no(`is more than ${largest}`, remedy);
  return ok(value === 0 ? 0 : value);
}

function wholeNumber(cell: string, largest: number): Cell<number> {
  const value = decimal(cell);
  if (value === undefined || !Number.isInteger(value) || value < 0 || value > largest) {
    return no(
      `is not a whole number from 0 to ${largest}`,
      `Write a whole number from 0 to ${largest}, or leave it blank.`,
    );
  }
  return ok(value === 0 ? 0 : value);
}

function oneOf<Level extends string>(cell: string, levels: readonly Level[]): Cell<Level> {
  const level = levels.find((known) => known === cell);
  if (level !== undefined) return ok(level);
  const list = levels.join(', ');
  return no(`is not one of ${list}`, `Write one of ${list}, or leave it blank.`);
}

function flag(cell: string): Cell<boolean> {
  if (cell === '0' || cell === '1') return ok(cell === '1');
  return no('is not 0 or 1', 'Write 1 for yes, 0 for no, or leave it blank.');
}

const daysIn = (year: number, month: number): number =>
  new Date(Date.UTC(2000 + (year % 400), month, 0)).getUTCDate();

/** Is this text a real day in the form YYYY-MM-DD? */
export function isCalendarDate(text: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)?.map(Number) ?? [];
  if (year === undefined || month === undefined || day === undefined) return false;
  return month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month);
}

function calendarDate(cell: string, today: string): Cell<string> {
  if (!isCalendarDate(cell)) {
    return no(
      'is not a calendar date',
      'Write a real day as year-month-day, ISO 8601: 2024-03-09.',
    );
  }
  if (cell < EARLIEST) return no(`lies before ${EARLIEST}`, `Write a date from ${EARLIEST} on.`);
  if (cell > today) return no(`lies after today, ${today}`, `Write a date up to ${today}.`);
  return ok(cell);
}

function jascCode(cell: string): Cell<string> {
  if (/^\d{4}$/.test(cell)) return ok(cell);
  return no('is not a code of four digits', 'Write the four digits of the JASC code: 2820.');
}

function shares(cell: string): Cell<MechanicShare[]> {
  const remedy = 'Write one name, or names with shares that sum to 1: A:0.6;B:0.4.';
  const parts = cell.split(';').map((part) => part.trim());
  const mechanics: MechanicShare[] = [];
  const stated = parts.filter((part) => part.includes(':')).length;
  if (stated !== 0 && stated !== parts.length) {
    return no('gives shares to some of the mechanics only', remedy);
  }
  for (const part of parts) {
    const colon = part.lastIndexOf(':');
    const name = text((colon < 0 ? part : part.slice(0, colon)).trim());
    if (!name.ok) return name;
    if (!name.value) return no('holds an empty name', remedy);
    const share = colon < 0 ? 1 / parts.length : decimal(part.slice(colon + 1).trim());
    if (share === undefined || share <= 0 || share > 1) {
      return no(`gives ${name.value} a share that is not above 0 and up to 1`, remedy);
    }
    if (mechanics.some((other) => other.name === name.value)) {
      return no(`names ${name.value} twice`, remedy);
    }
    mechanics.push({ name: name.value, share });
  }
  const sum = mechanics.reduce((total, { share }) => total + share, 0);
  if (Math.abs(sum - 1) > 1e-6) return no(`has shares that sum to ${sum}`, remedy);
  return ok(mechanics);
}

const SIGHTS: readonly Sight[] = ['direct', 'mirror', 'feel'];
const POSTURES: readonly Posture[] = ['upright', 'bent', 'lying'];
const REACHES: readonly Reach[] = ['forearm', 'arm'];

/** How each column is read. `today` is an ISO 8601 date: nothing can have been completed after it. */
export const readers = (today: string) => ({
  completed_on: (cell: string) => calendarDate(cell, today),
  task: text,
  jasc: jascCode,
  standard_hours: standardCell,
  model: text,
  registration: text,
  mechanic: shares,
  hours: hoursCell,
  censored: flag,
  clearance_mm: (cell: string) => measure(cell, 10_000, 'millimetres'),
  sight: (cell: string) => oneOf(cell, SIGHTS),
  posture: (cell: string) => oneOf(cell, POSTURES),
  reach: (cell: string) => oneOf(cell, REACHES),
  swing_deg: (cell: string) => measure(cell, 360, 'degrees'),
  held: flag,
  locked_fasteners: (cell: string) => wholeNumber(cell, 1000),
});
