import {
  type Counter,
  type CsvLine,
  parseHours,
  type RefusedCell,
  readDay,
} from '@fairlead/airworthiness';
import { DueKind, DueRule } from '@fairlead/database';
import { Refused } from '../../errors.ts';
import { countsUnder, type GivenCounts } from '../counts.ts';
import { dateOf } from '../due-terms.ts';
import { type GivenTerms, refuseTerms } from '../given-terms.ts';
import type { TermColumn } from './due-columns.ts';

/** A row as it was read, before anything of the shop is looked up. */
export interface GivenDueRow extends GivenTerms {
  line: number;
  kind: DueKind;
  title: string;
  number: string;
  revision: string;
  source: string;
  part: { number: string; serial: string } | null;
  task: string;
  last: (GivenCounts & { doneOn: Date; tisHundredths: number | null; method: string }) | null;
}

const columnOf: Record<string, TermColumn> = {
  everyHundredths: 'every_hours',
  everyMonths: 'every_months',
  everyCalendarMonths: 'every_calendar_months',
  everyDays: 'every_days',
  limitHundredths: 'limit_hours',
  everyCycles: 'every_cycles',
  everyLandings: 'every_landings',
  everyStarts: 'every_starts',
  limitCycles: 'limit_cycles',
  limitLandings: 'limit_landings',
  limitStarts: 'limit_starts',
  limitDate: 'limit_date',
  whicheverLast: 'whichever',
};

/** Reads the cells of one row; what is refused is added to the list, and then the row is not to be used. */
export function givenDueRow(
  { line, cells }: CsvLine<TermColumn>,
  refused: RefusedCell[],
): GivenDueRow {
  const refuse = (column: TermColumn, problem: string, needed: string): null => {
    refused.push({ line, column, value: cells[column], problem, needed });
    return null;
  };
  const read = <Value>(column: TermColumn, how: (cell: string) => Value, needed: string) => {
    if (cells[column] === '') return null;
    try {
      return how(cells[column]);
    } catch {
      return refuse(column, 'cannot be read', needed);
    }
  };
  const hours = (column: TermColumn) => read(column, parseHours, 'hours such as 1234.5');
  const day = (column: TermColumn) =>
    read(column, (cell) => dateOf(readDay(cell)), 'a day that exists, such as 2026-03-14');
  const count = (column: TermColumn) => read(column, wholeNumber, 'a whole number from 1 to 1000');
  const counts = (at: 'every' | 'limit' | 'last_at', least: 0 | 1): GivenCounts => {
    const of = (counter: Counter) =>
      read(`${at}_${counter}`, counted(least), `a whole number from ${least} to 1000000`);
    return { cycles: of('cycles'), landings: of('landings'), starts: of('starts') };
  };
  const text = (column: TermColumn, least: number, most: number) => {
    const { length } = cells[column];
    if (length < least || length > most)
      refuse(column, `has ${length} characters`, `${least} to ${most}`);
    return cells[column];
  };
  const one = <Value extends string>(column: TermColumn, of: Record<string, Value>) => {
    const known = Object.values(of).find((value) => value === cells[column]);
    if (!known) refuse(column, 'is not known', `one of ${Object.values(of).join(', ')}`);
    return known ?? (Object.values(of)[0] as Value);
  };
  const before = refused.length;
  const row: GivenDueRow = {
    line,
    kind: one('kind', DueKind),
    rule: one('rule', DueRule),
    title: text('title', 2, 200),
    number: text('number', 0, 100),
    revision: text('revision', 0, 100),
    source: text('source', 2, 300),
    task: text('task', 0, 200),
    ...{ everyHundredths: hours('every_hours'), everyMonths: count('every_months') },
    ...{ everyCalendarMonths: count('every_calendar_months'), everyDays: count('every_days') },
    ...{ limitHundredths: hours('limit_hours'), limitDate: day('limit_date') },
    ...countsUnder('every', counts('every', 1)),
    ...countsUnder('limit', counts('limit', 1)),
    whicheverLast:
      cells.whichever !== '' && one('whichever', { first: 'first', last: 'last' }) === 'last',
    part:
      cells.part_number === '' && cells.part_serial === ''
        ? null
        : { number: text('part_number', 1, 100), serial: text('part_serial', 1, 100) },
    last: lastGiven(
      day('last_on'),
      hours('last_at_hours'),
      cells.last_method,
      counts('last_at', 0),
    ),
  };
  if (row.kind === 'directive' && row.number === '')
    refuse('number', 'is blank', 'the number of the directive (14 CFR 91.417(a)(2)(v))');
  if (row.last === null && cells.last_on === '' && lastCells(cells) !== '')
    refuse('last_on', 'is blank', 'the day on which it was done, with its hours and method');
  if (row.last && row.last.method.length > 500)
    refuse('last_method', `has ${row.last.method.length} characters`, 'at most 500');
  if (refused.length === before) refuseTogether(row, refuse);
  return row;
}

function refuseTogether(
  row: GivenDueRow,
  refuse: (column: TermColumn, problem: string, needed: string) => null,
): void {
  try {
    refuseTerms(row);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    refuse(columnOf[error.field ?? ''] ?? 'rule', 'does not go with the others', error.message);
  }
}

function wholeNumber(cell: string): number {
  if (!/^[1-9]\d{0,2}$|^1000$/.test(cell)) throw new RangeError(cell);
  return Number(cell);
}

/** A count below what nobody counts so far. */
const counted = (least: 0 | 1) => (cell: string) => {
  const count = Number(cell);
  if (!/^\d{1,7}$/.test(cell) || count < least || count > 1_000_000) throw new RangeError(cell);
  return count;
};

const lastCells = (cells: CsvLine<TermColumn>['cells']) =>
  cells.last_at_hours +
  cells.last_at_cycles +
  cells.last_at_landings +
  cells.last_at_starts +
  cells.last_method;

const lastGiven = (
  doneOn: Date | null,
  tisHundredths: number | null,
  method: string,
  counts: GivenCounts,
) =>
  doneOn === null
    ? null
    : { ...counts, doneOn, tisHundredths, method: method.length < 2 ? 'As the file says' : method };
