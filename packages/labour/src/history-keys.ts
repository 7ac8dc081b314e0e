import type { HistoryRow } from './history-columns.ts';

/**
 * Row key: canonical text of a row, the same for the same row however its file wrote it (column
 * order, quoting, "2.0" or "2", the order of the mechanics). Where it stood in the file is not in it.
 *
 * @param occurrence which of several identical rows this is, from 1
 * @example
 * rowKey({ line: 2, completedOn: '2024-05-02', task: 'A', mechanics: [], hours: hours(2),
 *   censored: false, found: {} }) // '[1,"2024-05-02","A",null,null,null,null,[],2,false,…]'
 */
export function rowKey(row: HistoryRow, occurrence = 1): string {
  if (!Number.isInteger(occurrence) || occurrence < 1) {
    throw new RangeError(`Occurrence must be a whole number of 1 or more; got ${occurrence}.`);
  }
  const mechanics = row.mechanics
    .map(({ name, share }) => [name, share] as const)
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  const { clearanceMm, sight, posture, reach, swingDeg, held, lockedFasteners } = row.found;
  return JSON.stringify([
    occurrence,
    row.completedOn,
    row.task,
    row.jasc ?? null,
    row.standardHours ?? null,
    row.model ?? null,
    row.registration ?? null,
    mechanics,
    row.hours,
    row.censored,
    clearanceMm ?? null,
    sight ?? null,
    posture ?? null,
    reach ?? null,
    swingDeg ?? null,
    held ?? null,
    lockedFasteners ?? null,
  ]);
}

/**
 * Row keys of a whole file, in its order: identical rows are numbered 1, 2, 3 …, so that all of them
 * count, and the same file again gives the same keys and adds nothing.
 *
 * Two different files that each hold one row like this are taken to mean the same job.
 */
export function rowKeys(rows: readonly HistoryRow[]): string[] {
  const seen = new Map<string, number>();
  return rows.map((row) => {
    const plain = rowKey(row);
    const occurrence = (seen.get(plain) ?? 0) + 1;
    seen.set(plain, occurrence);
    return occurrence === 1 ? plain : rowKey(row, occurrence);
  });
}
