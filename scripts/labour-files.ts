import path from 'node:path';
import {
  type HistoryRow,
  parseHistory,
  type Refusal as RefusedCell,
  type RegressRow,
  readTable,
  writeRefused,
} from '../packages/labour/src/index.ts';
import { readText, writeWhole } from './files.ts';
import { Refusal } from './progress.ts';

/** The rows of a request: in it, or in a file beside it. */
export function rowsOf(request: unknown, folder: string): readonly RegressRow[] {
  const rows = (request as { rows?: unknown } | null)?.rows;
  if (typeof rows === 'string') return readTable(readText(path.resolve(folder, rows)));
  const areRows =
    Array.isArray(rows) &&
    rows.every((row) => typeof row === 'object' && row !== null && !Array.isArray(row));
  if (areRows) return rows as RegressRow[];
  throw new Refusal('"rows" must be the path of a CSV file or a list of objects.');
}

const SHOWN = 20;

/** What is wrong in a file, a line each, the first twenty. */
export function refusedWords(file: string, refused: readonly RefusedCell[]): string {
  const lines = refused.slice(0, SHOWN).map(({ line, column, value, problem, remedy }) => {
    const what = column === '' ? 'the row' : `${column} ${JSON.stringify(value)}`;
    return `  line ${line}: ${what} ${problem}. ${remedy}`;
  });
  if (refused.length > SHOWN) lines.push(`  … and ${refused.length - SHOWN} more`);
  return `${file}: nothing was used, because\n${lines.join('\n')}`;
}

/**
 * The rows of a history file.
 *
 * @throws Refusal with what is wrong, unless bad rows are to be skipped: then they are written to a file first
 */
export function historyOf(
  file: string,
  { skipBad, refusedTo }: { readonly skipBad: boolean; readonly refusedTo: string | undefined },
): { readonly rows: readonly HistoryRow[]; readonly refused: number } {
  const parsed = parseHistory(readText(file), { today: new Date().toISOString().slice(0, 10) });
  const headerIsWrong = parsed.refused.length > 0 && parsed.refusedRows.length === 0;
  if (parsed.refused.length > 0 && (!skipBad || headerIsWrong)) {
    throw new Refusal(refusedWords(file, parsed.refused));
  }
  if (parsed.refusedRows.length > 0) {
    writeWhole(
      refusedTo ?? `${file.replace(/\.csv$/i, '')}.refused.csv`,
      writeRefused(parsed),
      false,
    );
  }
  return { rows: parsed.rows, refused: parsed.refusedRows.length };
}
