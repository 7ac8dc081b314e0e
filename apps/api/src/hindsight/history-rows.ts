import { createHash } from 'node:crypto';
import type { Prisma, Tx } from '@fairlead/database';
import { type AccessConditions, type HistoryRow, rowKeys } from '@fairlead/labour';
import { newId } from '../new-id.ts';

/**
 * Rows in one statement. Each access row has eight parameters, of which PostgreSQL takes 32,767 at once;
 * and after each it is told how far the import is, so that a long one is seen to move.
 */
const AT_ONCE = 2000;

export interface RowsAdded {
  /** Null: every row was there already, so nothing was written. */
  importId: string | null;
  added: number;
  already: number;
}

export interface RowsToAdd {
  name: string;
  sha256: string;
  rows: readonly HistoryRow[];
  /** Rows of the file that were refused, to be counted with the import. */
  refused?: number;
  /** Who takes it in; null: the command line. */
  byId?: string | null;
  /** Told after each statement how many rows are saved; what it throws takes all of them back. */
  onSaved?: (saved: number) => Promise<void>;
}

/** Which of a file's rows the shop has, by their hashes; hashes in the order of the rows. */
export async function knownRows(tx: Tx, rows: readonly HistoryRow[]) {
  const hashes = rowKeys(rows).map(sha256);
  const there = await tx.$queryRaw<{ row_hash: string }[]>`SELECT row_hash FROM history_item
    WHERE shop_id = current_shop() AND row_hash = ANY(${hashes}::bpchar[])`;
  return { hashes, known: new Set(there.map(({ row_hash }) => row_hash)) };
}

/**
 * Adds the rows of a history file that the shop does not have yet, with the import that they came by.
 * Two at a time wait for each other, so that the same file sent twice at once still counts once.
 */
export async function addHistoryRows(tx: Tx, file: RowsToAdd): Promise<RowsAdded> {
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended('history of ' || current_shop(), 0))::text`;
  const { hashes, known } = await knownRows(tx, file.rows);
  const fresh = file.rows.flatMap((row, index) => {
    const hash = hashes[index] as string;
    return known.has(hash) ? [] : [{ hash, row }];
  });
  const already = file.rows.length - fresh.length;
  if (fresh.length === 0) return { importId: null, added: 0, already };

  const importId = newId();
  await tx.historyImport.create({
    data: {
      id: importId,
      fileName: file.name,
      fileSha256: file.sha256,
      rows: fresh.length,
      already,
      refused: file.refused ?? 0,
      importedById: file.byId ?? null,
    },
  });
  const places = new Places();
  for (const { row } of fresh) places.idOf(row.found);
  for (const some of chunks(places.rows)) await tx.access.createMany({ data: some });
  let saved = 0;
  // Made as they are written: a hundred thousand of them at once are as much again as the file's rows.
  for (const some of chunks(fresh)) {
    await insertItems(
      tx,
      some.map(({ hash, row }) => itemOf(importId, hash, row, places.idOf(row.found))),
    );
    saved += some.length;
    await file.onSaved?.(saved);
  }
  return { importId, added: fresh.length, already };
}

const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');

function* chunks<Row>(rows: readonly Row[]): Generator<Row[]> {
  for (let start = 0; start < rows.length; start += AT_ONCE)
    yield rows.slice(start, start + AT_ONCE);
}

/** The access conditions of one import, each kept once. */
class Places {
  readonly rows: Prisma.AccessCreateManyInput[] = [];
  readonly #ids = new Map<string, string>();

  /** Null: nothing was recorded of the place. */
  idOf(found: AccessConditions): string | null {
    const row = accessOf(found);
    const key = JSON.stringify(Object.values(row));
    if (Object.values(row).every((value) => value === null)) return null;
    const id = this.#ids.get(key) ?? newId();
    if (!this.#ids.has(key)) {
      this.#ids.set(key, id);
      this.rows.push({ id, ...row });
    }
    return id;
  }
}

/** Measures are kept whole, rounded down, so that none leaves the band that it was measured in. */
function accessOf({
  clearanceMm,
  sight,
  posture,
  reach,
  swingDeg,
  held,
  lockedFasteners,
}: AccessConditions) {
  return {
    clearanceMm: clearanceMm === undefined ? null : Math.floor(clearanceMm),
    sight: sight ?? null,
    posture: posture ?? null,
    reach: reach ?? null,
    swingDeg: swingDeg === undefined ? null : Math.floor(swingDeg),
    held: held ?? null,
    lockedFasteners: lockedFasteners ?? null,
  };
}

interface ItemRow {
  import_id: string;
  row_hash: string;
  completed_on: string;
  task: string;
  jasc: string | null;
  standard_hours: string | null;
  model: string;
  registration: string;
  mechanics: { name: string; share: number }[];
  hours: number;
  censored: boolean;
  access_id: string | null;
}

function itemOf(
  importId: string,
  rowHash: string,
  row: HistoryRow,
  accessId: string | null,
): ItemRow {
  return {
    import_id: importId,
    row_hash: rowHash,
    completed_on: row.completedOn,
    task: row.task,
    jasc: row.jasc ?? null,
    standard_hours: row.standardHours?.toFixed(3) ?? null,
    model: row.model ?? '',
    registration: row.registration ?? '',
    mechanics: row.mechanics.map(({ name, share }) => ({ name, share })),
    hours: row.hours,
    censored: row.censored,
    access_id: accessId,
  };
}

/** One parameter for all rows: twelve for each of thousands cost ten times the time of the insert itself. */
async function insertItems(tx: Tx, rows: readonly ItemRow[]): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO history_item (import_id, row_hash, completed_on, task, jasc, standard_hours, model, registration, mechanics, hours, censored, access_id)
    SELECT import_id, row_hash, completed_on, task, jasc, standard_hours, model, registration, mechanics, hours, censored, access_id
    FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS r (import_id uuid, row_hash text, completed_on date, task text, jasc text,
      standard_hours numeric, model text, registration text, mechanics jsonb, hours float8, censored boolean, access_id uuid)`;
}
