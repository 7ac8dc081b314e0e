import fs from 'node:fs';
import path from 'node:path';
import {
  type HistoryRow,
  parseHistory,
  type Refusal as RefusedCell,
  type RegressRow,
  readTable,
  writeRefused,
} from '../packages/labour/src/index.ts';
import { Refusal } from './progress.ts';

const why: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'this account may not use it',
  EEXIST: 'it exists already, and nothing of yours is overwritten',
  ENOSPC: 'the disk is full',
};
const whyOf = (error: unknown): string => {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return why[code] ?? code;
};

/** @throws Refusal that says why the file cannot be read */
export function readText(file: string): string {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch (error) {
    throw new Refusal(`Cannot read ${file}: ${whyOf(error)}.`);
  }
}

/** @throws Refusal for what is not JSON */
export function jsonOf(file: string): unknown {
  const text = readText(file);
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Refusal(`${file} is not JSON: ${(error as Error).message}`);
  }
}

/** Writes all of a file or nothing: beside it first, then in its place. */
export function writeWhole(file: string, text: string, overwrite = true): void {
  try {
    if (!overwrite) {
      fs.writeFileSync(file, text, { flag: 'wx' });
      return;
    }
    const beside = `${file}.${process.pid}.part`;
    fs.writeFileSync(beside, text);
    fs.renameSync(beside, file);
  } catch (error) {
    throw new Refusal(`Cannot write ${file}: ${whyOf(error)}.`);
  }
}

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
