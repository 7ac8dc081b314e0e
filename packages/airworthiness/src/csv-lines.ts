import { CsvError, parse } from 'csv-parse/sync';

/** What a row was refused for: where, what was given, and what is needed. */
export interface RefusedCell {
  /** Of the file, from 1. */
  readonly line: number;
  readonly column: string;
  readonly value: string;
  readonly problem: string;
  readonly needed: string;
}

/** A row with its line in the file, its cells by column. */
export interface CsvLine<Column extends string> {
  readonly line: number;
  readonly cells: Readonly<Record<Column, string>>;
}

export type CsvRead<Column extends string> = {
  readonly lines: readonly CsvLine<Column>[];
  readonly refused: readonly RefusedCell[];
};

const MOST_LINES = 5000;

/**
 * Reads a CSV file (RFC 4180) with a head: columns in any order, blank cells as empty text. Nothing is thrown for a bad file.
 *
 * @param needed columns without which no row means anything
 * @param other columns that may be left out
 */
export function csvLines<Column extends string>(
  text: string,
  needed: readonly Column[],
  other: readonly Column[],
): CsvRead<Column> {
  const whole = (column: string, value: string, problem: string, remedy: string) => ({
    lines: [],
    refused: [{ line: 1, column, value, problem, needed: remedy }],
  });
  let rows: { record: string[]; info: { lines: number } }[];
  try {
    rows = parse(text, {
      ...{ bom: true, info: true, trim: true, skip_empty_lines: true, relax_column_count: true },
    }) as unknown as typeof rows;
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return whole('', '', `is not CSV: ${error.message}`, 'cells quoted as CSV asks');
  }
  const [head, ...body] = rows;
  const columns: readonly string[] = [...needed, ...other];
  const names = (head?.record ?? []).map((name) => name.toLowerCase());
  const strange = names.find((name) => !columns.includes(name));
  if (strange !== undefined)
    return whole(strange, strange, 'is not a known column', `of ${columns.join(', ')}`);
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice !== undefined)
    return whole(twice, twice, 'is a column that comes twice', 'one of them');
  const lacking = needed.find((name) => !names.includes(name));
  if (lacking) return whole(lacking, '', 'is a missing column', `the columns ${needed.join(', ')}`);
  if (body.length === 0) return whole('', '', 'holds no row below its head', 'at least one row');
  if (body.length > MOST_LINES)
    return whole('', `${body.length} rows`, 'holds too many rows', `at most ${MOST_LINES}`);
  return {
    lines: body.map(({ record, info }) => ({
      line: info.lines,
      cells: Object.fromEntries(
        columns.map((name) => [name, record[names.indexOf(name)] ?? '']),
      ) as Record<Column, string>,
    })),
    refused: body
      .filter(({ record }) => record.length > names.length)
      .map(({ record, info }) => ({
        ...{ line: info.lines, column: '', value: record.join(',') },
        problem: `has ${record.length} cells`,
        needed: `${names.length}, as the head has`,
      })),
  };
}
