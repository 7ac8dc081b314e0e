import type { Tx } from '@fairlead/database';
import { sayChange } from './say-change.ts';

/** One change of the settings, for the sheet's table of revisions. */
export interface SettingsChange {
  id: string;
  at: Date;
  /** Who did it. */
  by: string;
  /** Whom it was about; null: the shop. */
  about: string | null;
  words: string;
}

/** When something was last changed, and by whom; null: as the shop was set up. */
export interface LastChange {
  at: Date;
  by: string | null;
}

const tables = [
  'shop',
  'person',
  'certificate',
  'labour_rate',
  'tax_rate',
  'weekly_hours',
  'day_exception',
];

interface AuditRow {
  id: string;
  txid: bigint;
  at: Date;
  by: string;
  about: string | null;
  table: string;
  action: 'insert' | 'update' | 'delete';
  before: Record<string, unknown> | null;
  after: Record<string, unknown> | null;
}

/** The latest changes that people made, newest first. What was there when the shop was set up is none. */
export async function latestChanges(read: Tx, limit: number): Promise<SettingsChange[]> {
  const rows = await read.$queryRaw<AuditRow[]>`
    SELECT a.id, a.txid, a.at, by.name AS by, about.name AS about, a.table_name AS table, a.action::text AS action, a.before, a.after
    FROM audit a JOIN person by ON by.shop_id = a.shop_id AND by.id = a.person_id
    LEFT JOIN person about ON about.shop_id = a.shop_id AND about.id = CASE a.table_name
      WHEN 'person' THEN a.row_id ELSE (coalesce(a.after, a.before) ->> 'person_id')::uuid END
    WHERE a.shop_id = current_shop() AND a.table_name = ANY (${tables}::text[])
    ORDER BY a.at DESC, a.id DESC LIMIT ${limit * 8}`;
  const said = new Set<string>();
  return rows
    .flatMap(({ id, txid, at, by, about, ...change }) => {
      const words = sayChange(change);
      // A week is many rows of one change.
      const once = `${txid} ${about} ${words}`;
      if (words === null || said.has(once)) return [];
      said.add(once);
      return [{ id, at, by, about, words }];
    })
    .slice(0, limit);
}

/** When each person, with what they hold and their week, each rate and the shop itself were last changed; by their key. */
export async function lastChanges(read: Tx): Promise<Map<string, LastChange>> {
  const rows = await read.$queryRaw<(LastChange & { of: string })[]>`
    SELECT DISTINCT ON (c.of) c.of::text, c.at, p.name AS by FROM (
      SELECT a.at, a.id, a.shop_id, a.person_id, CASE
        WHEN a.table_name IN ('certificate', 'weekly_hours', 'day_exception')
          THEN coalesce((coalesce(a.after, a.before) ->> 'person_id')::uuid, a.shop_id)
        ELSE a.row_id END AS of
      FROM audit a WHERE a.shop_id = current_shop() AND a.table_name = ANY (${tables}::text[])) c
    LEFT JOIN person p ON p.shop_id = c.shop_id AND p.id = c.person_id
    ORDER BY c.of, c.at DESC, c.id DESC`;
  return new Map(rows.map(({ of, at, by }) => [of, { at, by }]));
}
