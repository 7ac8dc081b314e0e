import type { Tx } from '@fairlead/database';
import { addHistoryRows, type RowsAdded } from './history-rows.ts';
import { type HistoryFile, type ReadHistory, readHistoryFile } from './read-history-file.ts';
import { askRefit } from './refit-hours.ts';

export interface ImportHistoryInput {
  file: HistoryFile;
  /** ISO 8601 date in the shop's time zone: nothing was completed after it. */
  today: string;
  /** Take the good rows although others are refused. */
  skipBad: boolean;
  /** Is given what was refused before anything is written, to keep it; what it throws stops the import. */
  keepRefused?: (read: ReadHistory) => Promise<void>;
  /** Who takes it in; left out: the command line. */
  byId?: string;
  /** Told how many rows are saved so far; what it throws takes all of them back. */
  onSaved?: (saved: number) => Promise<void>;
  /** Last thing in the same transaction: what it throws takes everything back. */
  finish?: (tx: Tx, done: RowsAdded) => Promise<void>;
}

export type ImportedHistory = RowsAdded & {
  /** False: rows were refused, so nothing was taken in. */
  taken: boolean;
  read: ReadHistory;
};

/**
 * Takes a file of past jobs into the shop: all of it, or none of it. The same file again adds nothing,
 * and a file that overlaps one already taken adds what is new in it.
 *
 * @param write runs its work in one transaction of the shop
 */
export async function importHistory(
  write: <T>(work: (tx: Tx) => Promise<T>) => Promise<T>,
  input: ImportHistoryInput,
): Promise<ImportedHistory> {
  // load
  const read = readHistoryFile(input.file, input.today);

  // decide
  const whole = read.refused.length === 0;
  // A header that cannot be read leaves no row to take: skipping bad rows would skip the file in silence.
  const usable = read.refusedRows.length > 0 || whole;
  if (!whole && (!input.skipBad || !usable))
    return { taken: false, read, importId: null, added: 0, already: 0 };
  if (!whole) await input.keepRefused?.(read);

  // save
  const { byId = null, onSaved, finish } = input;
  const rows = await write(async (tx) => {
    const added = await addHistoryRows(tx, {
      ...read,
      refused: read.refusedRows.length,
      byId,
      ...(onSaved && { onSaved }),
    });
    if (added.added > 0) await askRefit(tx, new Date());
    await finish?.(tx, added);
    return added;
  });
  return { taken: true, read, ...rows };
}
