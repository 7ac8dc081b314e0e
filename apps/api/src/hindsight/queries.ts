import type { Tx } from '@fairlead/database';

/** A past job, of a history file or of the shop's own clock. */
export interface PastJobRow {
  completedOn: Date;
  task: string;
  title: string | null;
  registration: string;
  model: string;
  hours: number;
  censored: boolean;
}

/** Past jobs, newest first, a page of them. */
export function pastJobPage(
  read: Tx,
  { task, limit, offset }: { task: string | null; limit: number; offset: number },
): Promise<PastJobRow[]> {
  return read.$queryRaw<PastJobRow[]>`
    SELECT h.completed_on AS "completedOn", h.task, t.title, h.registration, h.model, h.hours, h.censored
    FROM labour_history h LEFT JOIN task t ON t.shop_id = h.shop_id AND t.key = h.task
    WHERE h.shop_id = current_shop() AND (${task}::text IS NULL OR h.task = ${task}::text)
    ORDER BY h.completed_on DESC, h.task, h.registration, h.hours LIMIT ${limit} OFFSET ${offset}`;
}

/** What the shop has clocked on one task. */
export interface TaskJobsRow {
  task: string;
  title: string | null;
  standardHours: number | null;
  jobs: number;
  bounds: number;
  medianHours: number | null;
  lastOn: Date;
}

/** Past jobs counted by task, the most often done first. */
export function jobsByTask(read: Tx, most: number): Promise<TaskJobsRow[]> {
  return read.$queryRaw<TaskJobsRow[]>`
    SELECT h.task, max(t.title) AS title, max(t.standard_hours)::float8 AS "standardHours",
      (count(*) FILTER (WHERE NOT h.censored))::int AS jobs, (count(*) FILTER (WHERE h.censored))::int AS bounds,
      percentile_cont(0.5) WITHIN GROUP (ORDER BY h.hours) FILTER (WHERE NOT h.censored) AS "medianHours",
      max(h.completed_on) AS "lastOn"
    FROM labour_history h LEFT JOIN task t ON t.shop_id = h.shop_id AND t.key = h.task
    WHERE h.shop_id = current_shop()
    GROUP BY h.task ORDER BY count(*) DESC, h.task LIMIT ${most}`;
}

/** A finished item whose hours had been estimated when it was quoted. */
export interface QuotedItemRow {
  itemId: string;
  title: string;
  orderNumber: number;
  registration: string;
  doneAt: Date;
  p10: number;
  p50: number;
  p80: number;
  p90: number;
  actual: number;
}

/** Finished items with what was quoted and what was clocked, newest first. */
export function quotedItems(read: Tx, most: number): Promise<QuotedItemRow[]> {
  return read.$queryRaw<QuotedItemRow[]>`
    SELECT i.id AS "itemId", i.title, o.number AS "orderNumber", c.registration, last.at AS "doneAt",
      q.hours_p10::float8 AS p10, q.hours_p50::float8 AS p50, q.hours_p80::float8 AS p80, q.hours_p90::float8 AS p90, worked.hours AS actual
    FROM work_item i
    JOIN quote_line q ON q.shop_id = i.shop_id AND q.id = i.quote_line_id AND q.hours_p50 > 0
    JOIN work_order o ON o.shop_id = i.shop_id AND o.id = i.order_id
    JOIN aircraft c ON c.shop_id = o.shop_id AND c.id = o.aircraft_id
    JOIN LATERAL (SELECT e.kind, e.at FROM item_event e WHERE e.shop_id = i.shop_id AND e.item_id = i.id
      AND e.kind IN ('done', 'reopened') ORDER BY e.at DESC, e.id DESC LIMIT 1) last ON last.kind = 'done'
    JOIN LATERAL (SELECT sum(extract(epoch FROM s.ended_at - s.started_at))::float8 / 3600 AS hours FROM stretch s
      WHERE s.shop_id = i.shop_id AND s.item_id = i.id AND s.ended_at IS NOT NULL) worked ON worked.hours > 0
    WHERE i.shop_id = current_shop() ORDER BY last.at DESC, i.id DESC LIMIT ${most}`;
}
