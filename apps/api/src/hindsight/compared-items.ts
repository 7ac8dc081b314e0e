import type { Tx } from '@fairlead/database';
import type { ComparedItem } from '@fairlead/labour';

/** Ten years of a busy shop; older ones say little of today's estimates. */
export const MOST_COMPARED = 20_000;

/** A finished item that had been quoted with hours, in figures. */
export interface ComparedRow extends ComparedItem {
  itemId: string;
  p80: number;
  /** What its task is called; empty where it has none. */
  taskTitle: string;
}

/** Finished items whose hours had been estimated when they were quoted, newest first. */
export function comparedItems(read: Tx): Promise<ComparedRow[]> {
  return read.$queryRaw<ComparedRow[]>`
    SELECT i.id AS "itemId", to_char(last.at AT TIME ZONE shop.time_zone, 'YYYY-MM') AS month,
      coalesce(t.key, '') AS task, coalesce(t.title, '') AS "taskTitle", m.maker || ' ' || m.name AS model,
      q.hours_p10::float8 AS p10, q.hours_p50::float8 AS p50, q.hours_p80::float8 AS p80, q.hours_p90::float8 AS p90, worked.hours AS actual
    FROM work_item i
    JOIN shop ON shop.id = i.shop_id
    JOIN quote_line q ON q.shop_id = i.shop_id AND q.id = i.quote_line_id AND q.hours_p50 > 0
    JOIN work_order o ON o.shop_id = i.shop_id AND o.id = i.order_id
    JOIN aircraft c ON c.shop_id = o.shop_id AND c.id = o.aircraft_id
    JOIN aircraft_model m ON m.shop_id = c.shop_id AND m.id = c.model_id
    LEFT JOIN task t ON t.shop_id = i.shop_id AND t.id = i.task_id
    JOIN LATERAL (SELECT e.kind, e.at FROM item_event e WHERE e.shop_id = i.shop_id AND e.item_id = i.id
      AND e.kind IN ('done', 'reopened') ORDER BY e.at DESC, e.id DESC LIMIT 1) last ON last.kind = 'done'
    JOIN LATERAL (SELECT sum(extract(epoch FROM s.ended_at - s.started_at))::float8 / 3600 AS hours FROM stretch s
      WHERE s.shop_id = i.shop_id AND s.item_id = i.id AND s.ended_at IS NOT NULL) worked ON worked.hours > 0
    WHERE i.shop_id = current_shop() ORDER BY last.at DESC, i.id DESC LIMIT ${MOST_COMPARED}`;
}

/** What people read of a compared item. */
export interface ComparedWords {
  itemId: string;
  title: string;
  orderId: string;
  orderNumber: number;
  registration: string;
  doneAt: Date;
  reason: string;
}

/**
 * The words to some compared items: what they were, where, and why they took as long as they did, as far
 * as somebody wrote it down: the note given when it was finished, and reasons for corrected clock times.
 */
export function comparedWords(read: Tx, itemIds: readonly string[]): Promise<ComparedWords[]> {
  return read.$queryRaw<ComparedWords[]>`
    SELECT i.id AS "itemId", i.title, o.id AS "orderId", o.number AS "orderNumber", c.registration, last.at AS "doneAt",
      concat_ws('; ', nullif(last.note, ''), (SELECT string_agg(DISTINCT 'clock corrected: ' || k.reason, '; ') FROM clock_event k
        JOIN clock_event of ON of.shop_id = k.shop_id AND of.id = k.corrects_id
        WHERE k.shop_id = i.shop_id AND k.kind = 'correction' AND coalesce(k.item_id, of.item_id) = i.id)) AS reason
    FROM work_item i
    JOIN work_order o ON o.shop_id = i.shop_id AND o.id = i.order_id
    JOIN aircraft c ON c.shop_id = o.shop_id AND c.id = o.aircraft_id
    JOIN LATERAL (SELECT e.at, e.note FROM item_event e WHERE e.shop_id = i.shop_id AND e.item_id = i.id
      AND e.kind IN ('done', 'reopened') ORDER BY e.at DESC, e.id DESC LIMIT 1) last ON true
    WHERE i.shop_id = current_shop() AND i.id = ANY(${[...itemIds]}::uuid[])`;
}
