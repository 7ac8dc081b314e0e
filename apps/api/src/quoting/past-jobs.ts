import type { Tx } from '@fairlead/database';
import {
  type AccessConditions,
  hours,
  type PastJob,
  type ShopSummary,
  summariseShop,
  type TaskHistory,
} from '@fairlead/labour';

interface Row {
  task: string;
  hours: number;
  censored: boolean;
  standard_hours: number | null;
  clearance_mm: number | null;
  sight: AccessConditions['sight'] | null;
  posture: AccessConditions['posture'] | null;
  reach: AccessConditions['reach'] | null;
  swing_deg: number | null;
  held: boolean | null;
  locked_fasteners: number | null;
}

/** Everything the shop has clocked, in one statement: summed up for the shop, and task by task. */
export interface ShopHistory {
  shop: ShopSummary;
  of(task: string): readonly PastJob[];
}

/** Reads the past jobs of the shop: those of history files and its own closed items alike. */
export async function pastJobs(tx: Pick<Tx, '$queryRaw'>): Promise<ShopHistory> {
  const rows = await tx.$queryRaw<
    Row[]
  >`SELECT task, hours, censored, standard_hours, clearance_mm, sight::text, posture::text,
    reach::text, swing_deg, held, locked_fasteners FROM labour_history WHERE shop_id = current_shop() ORDER BY task, completed_on`;
  const byTask = new Map<string, { jobs: PastJob[]; standard: number | null }>();
  for (const row of rows) {
    const known = byTask.get(row.task) ?? { jobs: [], standard: null };
    byTask.set(row.task, known);
    known.standard = row.standard_hours ?? known.standard;
    known.jobs.push({ hours: hours(row.hours), censored: row.censored, found: conditionsOf(row) });
  }
  const histories = [...byTask].map(
    ([task, { jobs, standard }]): TaskHistory => ({
      task,
      jobs,
      ...(standard !== null && { standardHours: hours(standard) }),
    }),
  );
  return { shop: summariseShop(histories), of: (task) => byTask.get(task)?.jobs ?? [] };
}

const conditionsOf = (row: Row): AccessConditions => ({
  clearanceMm: row.clearance_mm ?? undefined,
  sight: row.sight ?? undefined,
  posture: row.posture ?? undefined,
  reach: row.reach ?? undefined,
  swingDeg: row.swing_deg ?? undefined,
  held: row.held ?? undefined,
  lockedFasteners: row.locked_fasteners ?? undefined,
});
