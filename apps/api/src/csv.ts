/** A cell: text as somebody wrote it, a decimal number of ours as text, a day, or nothing. */
export type Cell =
  | { kind: 'text'; value: string }
  | { kind: 'number'; value: string }
  | { kind: 'day'; value: string }
  | null;

export const textCell = (value: string | null): Cell =>
  value === null || value === '' ? null : { kind: 'text', value };
export const numberCell = (value: string): Cell => ({ kind: 'number', value });
export const dayCell = (value: Date | null): Cell =>
  value === null ? null : { kind: 'day', value: value.toISOString().slice(0, 10) };

/**
 * Text that a spreadsheet would take for a formula begins with an apostrophe, so that it is shown and never computed: a payer's
 * name must not be able to ask another address anything. Our own numbers are not touched: their minus is a minus.
 */
const harmless = (text: string) =>
  /^[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/.test(text) ? `'${text}` : text;

function field(cell: Cell): string {
  if (cell === null) return '';
  const text = cell.kind === 'text' ? harmless(cell.value) : cell.value;
  // RFC 4180, 2.5 to 2.7: quoted where it holds a comma, a quote or a line's end; a quote inside is doubled.
  return /[",\r\n]/.test(text) || text.startsWith("'") ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One record of a CSV file, with its line's end (RFC 4180, 2.1: CRLF). */
export const csvRecord = (cells: readonly Cell[]): string => `${cells.map(field).join(',')}\r\n`;
