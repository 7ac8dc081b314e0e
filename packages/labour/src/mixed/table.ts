import { CsvError, parse } from 'csv-parse/sync';
import type { RegressRow } from './regress.ts';

/**
 * The rows of a CSV file with a header row, every value as text.
 *
 * @throws RangeError that names the line for a file without rows, a header that names a column twice or not at all, a
 *   row of another length, or quotation marks that are not CSV
 */
export function readTable(text: string): RegressRow[] {
  let records: string[][];
  try {
    records = parse(text, {
      bom: true,
      skip_empty_lines: true,
      relax_column_count: true,
      trim: true,
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    throw new RangeError(`Not CSV: ${error.message}.`, { cause: error });
  }
  const [header, ...rows] = records;
  if (header === undefined)
    throw new RangeError('The file is empty; a header row and rows are needed.');
  const odd = header.findIndex((name, index) => name === '' || header.indexOf(name) !== index);
  if (odd >= 0) {
    throw new RangeError(
      header[odd] === ''
        ? `Column ${odd + 1} of the header has no name.`
        : `The header names column ${header[odd]} twice.`,
    );
  }
  return rows.map((cells, index) => {
    if (cells.length !== header.length) {
      throw new RangeError(
        `Row ${index + 1} has ${cells.length} values; the header has ${header.length} columns.`,
      );
    }
    return Object.fromEntries(header.map((name, column) => [name, cells[column]]));
  });
}
