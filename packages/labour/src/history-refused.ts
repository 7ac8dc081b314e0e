import type { ParsedHistory, RefusedRow } from './history.ts';
import { HISTORY_COLUMNS, REASON_COLUMN } from './history-columns.ts';

const quoted = (cell: string): string =>
  /[",\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

const reasonOf = ({ refusals }: RefusedRow): string =>
  refusals
    .map(({ line, column, value, problem, remedy }) => {
      const what = column === '' ? 'the row' : `${column} "${value}"`;
      return `line ${line}: ${what} ${problem}. ${remedy}`;
    })
    .join(' | ');

/**
 * Write refused rows: a CSV of the rows that were not accepted, as they were written, with the reason
 * in a last column. Correct it and import the file as it is: the reason column is passed over.
 *
 * A row with too few cells is filled up with blanks; the cells of one with too many are kept, so it
 * still has to be mended by hand.
 *
 * @example writeRefused(parseHistory(text, { today }))
 */
export function writeRefused(parsed: ParsedHistory): string {
  const source = parsed.header.length > 0 ? parsed.header : HISTORY_COLUMNS;
  const kept = source.flatMap((column, index) => (column === REASON_COLUMN ? [] : [index]));
  const header = [...kept.map((index) => source[index] ?? ''), REASON_COLUMN];
  const lines = parsed.refusedRows.map((row) => [
    ...kept.map((index) => row.cells[index] ?? ''),
    ...row.cells.slice(source.length),
    reasonOf(row),
  ]);
  return [header, ...lines].map((cells) => `${cells.map(quoted).join(',')}\n`).join('');
}
