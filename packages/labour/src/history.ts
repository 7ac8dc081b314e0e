import { CsvError, parse } from 'csv-parse/sync';
import { type Cell, isCalendarDate, readers } from './history-cells.ts';
import {
  HISTORY_COLUMNS,
  type HistoryColumn,
  type HistoryRow,
  REASON_COLUMN,
} from './history-columns.ts';

/** One thing that is wrong in a history file, and what would be right. */
export type Refusal = {
  /** Physical line of the cell, counted from 1; line 1 for the header of a usual file. */
  readonly line: number;
  /** Column name; empty when the whole line or file is meant. */
  readonly column: string;
  readonly value: string;
  readonly problem: string;
  readonly remedy: string;
};

/** A row that was not accepted, as it was written, with everything that is wrong in it. */
export type RefusedRow = {
  readonly line: number;
  readonly cells: readonly string[];
  readonly refusals: readonly Refusal[];
};

export type ParsedHistory = {
  readonly header: readonly string[];
  readonly rows: readonly HistoryRow[];
  /** Every refusal in the order of the file: the header's, or the cells'. */
  readonly refused: readonly Refusal[];
  readonly refusedRows: readonly RefusedRow[];
};

/** `cellLines`: where each cell begins; empty where all begin on the record's own line. */
type CsvRecord = { line: number; cells: string[]; cellLines: number[] };

const linesIn = (text: string): number => text.split('\n').length - 1;

/** Records with their physical lines. Blank lines are passed over but counted. */
function recordsOf(text: string): CsvRecord[] {
  let nextLine = 1;
  // Each at once as it is needed: a long file is not held in two forms.
  const placed = ({ record: cells, raw }: { record: string[]; raw: string }): CsvRecord => {
    const line = nextLine + (/^\n*/.exec(raw)?.[0].length ?? 0);
    nextLine += linesIn(raw);
    let cellLine = line;
    const cellLines = cells.some((cell) => cell.includes('\n'))
      ? cells.map((cell) => {
          const starts = cellLine;
          cellLine += linesIn(cell);
          return starts;
        })
      : [];
    return { line, cells, cellLines };
  };
  return parse(text, {
    raw: true,
    relax_column_count: true,
    skip_empty_lines: true,
    record_delimiter: '\n',
    on_record: placed as never,
  }) as unknown as CsvRecord[];
}

/** Where the CSV itself breaks: the line that holds the last byte that was still understood. */
function brokenCsv(error: CsvError, text: string): Refusal {
  const understood = new TextEncoder().encode(text).subarray(0, Number(error['bytes'] ?? 0));
  const line = understood.filter((byte) => byte === 10).length + 1;
  return {
    line,
    column: '',
    value: text.split('\n')[line - 1] ?? '',
    problem: 'has a quotation mark that is not opened or closed as CSV asks',
    remedy: 'Put the whole cell in quotation marks and double each one inside it: "3"" hose".',
  };
}

/** A header whose columns are kept apart by something else than commas, as some spreadsheets do. */
function otherSeparator(header: CsvRecord): Refusal | undefined {
  const [only = ''] = header.cells;
  const names = { ';': 'semicolons', '\t': 'tabulators', '|': 'upright strokes' };
  for (const [separator, name] of Object.entries(names)) {
    const parts = only.split(separator).map((part) => part.replace(/^"|"$/g, '').trim());
    if (parts.length < 2 || !parts.some((part) => HISTORY_COLUMNS.some((known) => known === part)))
      continue;
    return {
      line: header.line,
      column: '',
      value: only,
      problem: `keeps its columns apart by ${name}`,
      remedy: 'Save it as CSV with commas between the columns and a decimal point in numbers.',
    };
  }
  return undefined;
}

function headerRefusals(header: CsvRecord): Refusal[] {
  const separated = otherSeparator(header);
  if (separated) return [separated];
  const at = (column: string, index: number, problem: string, remedy: string): Refusal => ({
    line: header.cellLines[index] ?? header.line,
    column,
    value: column,
    problem,
    remedy,
  });
  const known = new Set<string>([...HISTORY_COLUMNS, REASON_COLUMN]);
  const present = header.cells.flatMap((column, index) => {
    if (!known.has(column)) {
      return [
        at(column, index, 'is not a known column', `Columns are ${HISTORY_COLUMNS.join(', ')}.`),
      ];
    }
    if (header.cells.indexOf(column) === index) return [];
    return [at(column, index, 'is a column that comes twice', 'Keep one of the two.')];
  });
  const missing = HISTORY_COLUMNS.filter((column) => !header.cells.includes(column)).map(
    (column): Refusal => ({
      line: header.line,
      column,
      value: '',
      problem: 'is a missing column',
      remedy: `Add the column ${column}; its cells may stay blank where nothing was recorded.`,
    }),
  );
  return [...present, ...missing];
}

const NEEDED: readonly HistoryColumn[] = ['completed_on', 'task', 'hours'];

/** Only what was recorded: an object without its undefined entries. */
function recorded<Shape extends object>(
  shape: Shape,
): { [K in keyof Shape]?: NonNullable<Shape[K]> } {
  return Object.fromEntries(Object.entries(shape).filter(([, value]) => value !== undefined)) as {
    [K in keyof Shape]?: NonNullable<Shape[K]>;
  };
}

function readRow(
  record: CsvRecord,
  header: readonly string[],
  read: ReturnType<typeof readers>,
): HistoryRow | RefusedRow {
  const { line, cells, cellLines } = record;
  const refusals: Refusal[] = [];
  const take = <Value>(column: HistoryColumn, reader: (cell: string) => Cell<Value>) => {
    const index = header.indexOf(column);
    const written = cells[index] ?? '';
    const refuse = (problem: string, remedy: string) => {
      refusals.push({ line: cellLines[index] ?? line, column, value: written, problem, remedy });
      return undefined;
    };
    const cell = written.trim();
    if (cell === '') {
      return NEEDED.includes(column)
        ? refuse('is blank', `Every row needs its ${column}.`)
        : undefined;
    }
    const answer = reader(cell);
    return answer.ok ? answer.value : refuse(answer.problem, answer.remedy);
  };

  if (cells.length !== header.length) {
    refusals.push({
      line,
      column: '',
      value: cells.join(','),
      problem: `has ${cells.length} cells where the header has ${header.length}`,
      remedy:
        'Write one cell a column, blank where nothing was recorded; quote a cell with a comma.',
    });
    return { line, cells, refusals };
  }
  const completedOn = take('completed_on', read.completed_on);
  const task = take('task', read.task);
  const known = recorded({
    jasc: take('jasc', read.jasc),
    standardHours: take('standard_hours', read.standard_hours),
    model: take('model', read.model),
    registration: take('registration', read.registration),
  });
  const mechanics = take('mechanic', read.mechanic) ?? [];
  const hours = take('hours', read.hours);
  const censored = take('censored', read.censored) ?? false;
  const found = recorded({
    clearanceMm: take('clearance_mm', read.clearance_mm),
    sight: take('sight', read.sight),
    posture: take('posture', read.posture),
    reach: take('reach', read.reach),
    swingDeg: take('swing_deg', read.swing_deg),
    held: take('held', read.held),
    lockedFasteners: take('locked_fasteners', read.locked_fasteners),
  });
  const complete = completedOn !== undefined && task !== undefined && hours !== undefined;
  if (refusals.length > 0 || !complete) return { line, cells, refusals };
  return { line, completedOn, task, ...known, mechanics, hours, censored, found };
}

const nothing = (refusal: Refusal): ParsedHistory => ({
  header: [],
  rows: [],
  refused: [refusal],
  refusedRows: [],
});

/**
 * Parse a history: the rows of a shop's history file, and everything that is wrong with the rest.
 *
 * UTF-8 text, header row with the columns of HISTORY_COLUMNS in any order, blank = not recorded. A
 * byte-order mark, CRLF and quoted line breaks are read. A header with a problem, or CSV that breaks,
 * gives no rows at all: its cells could be in the wrong columns. Nothing is thrown for a bad file.
 *
 * @param csvText the whole file
 * @param today ISO 8601 date; nothing can have been completed after it
 * @returns the good rows, and each refusal by physical line, column, value, problem and remedy
 * @throws RangeError when `today` is not an ISO 8601 calendar date
 * @example parseHistory('', { today: '2025-01-31' }).refused[0]?.problem // 'is an empty file'
 */
export function parseHistory(
  csvText: string,
  { today }: { readonly today: string },
): ParsedHistory {
  if (!isCalendarDate(today)) {
    throw new RangeError(`Today must be an ISO 8601 calendar date (2025-01-31); got "${today}".`);
  }
  const text = csvText.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  let records: CsvRecord[];
  try {
    records = recordsOf(text);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return nothing(brokenCsv(error, text));
  }
  const [first] = records;
  if (first === undefined) {
    return nothing({
      line: 1,
      column: '',
      value: '',
      problem: 'is an empty file',
      remedy: `Write a header row first: ${HISTORY_COLUMNS.join(',')}.`,
    });
  }
  const headerRecord = { ...first, cells: first.cells.map((cell) => cell.trim()) };
  const header = headerRecord.cells;
  const refused = headerRefusals(headerRecord);
  if (refused.length > 0) return { header, rows: [], refused, refusedRows: [] };

  const read = readers(today);
  const rows: HistoryRow[] = [];
  const refusedRows: RefusedRow[] = [];
  for (let index = 1; index < records.length; index += 1) {
    const record = records[index] as CsvRecord;
    // Spreadsheets leave rows of blanks behind: nothing was recorded there, so nothing is refused.
    if (record.cells.every((cell) => cell.trim() === '')) continue;
    const row = readRow(record, header, read);
    if ('refusals' in row) refusedRows.push(row);
    else rows.push(row);
  }
  return { header, rows, refused: refusedRows.flatMap((row) => row.refusals), refusedRows };
}
