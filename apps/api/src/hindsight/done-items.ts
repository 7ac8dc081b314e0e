import type { Posture, Reach, Sight, Tx } from '@fairlead/database';
import type { AccessConditions, DoneItem } from '@fairlead/labour';
import { conditionsFrom } from '../conditions.ts';

interface Row {
  historyItemId: string | null;
  itemId: string | null;
  completedOn: Date;
  task: string;
  jasc: string | null;
  standardHours: number | null;
  model: string;
  registration: string;
  mechanics: { name: string; share: number }[];
  hours: number;
  censored: boolean;
  clearanceMm: number | null;
  sight: Sight | null;
  posture: Posture | null;
  reach: Reach | null;
  swingDeg: number | null;
  held: boolean | null;
  lockedFasteners: number | null;
}

/** A past job as the model learns from it, and where it comes from. */
export interface PastItem extends DoneItem {
  /** One of the two: a row of a history file, or an item of the shop's own. */
  historyItemId: string | null;
  itemId: string | null;
  completedOn: Date;
  /** What a person decided about its time, if anybody did. */
  verdict: 'stands' | 'left_out' | 'taken_as' | 'other_task' | null;
}

/**
 * Everything the shop has clocked, oldest first, in an order that is always the same: history files and its own items, each
 * with what the catalogue says of its task today, and with what people decided about odd times. Times that were left
 * out are among them; `learnedFrom` leaves them out.
 */
export async function pastItems(
  tx: Pick<Tx, '$queryRaw' | 'task' | 'timeReview'>,
): Promise<PastItem[]> {
  const rows = await tx.$queryRaw<Row[]>`
    SELECT history_item_id AS "historyItemId", item_id AS "itemId", completed_on AS "completedOn", task, jasc,
      standard_hours AS "standardHours", model, registration, mechanics, hours, censored, clearance_mm AS "clearanceMm",
      sight::text, posture::text, reach::text, swing_deg AS "swingDeg", held, locked_fasteners AS "lockedFasteners"
    FROM labour_history WHERE shop_id = current_shop()
    ORDER BY completed_on, coalesce(history_item_id, item_id)`;
  const reviews = await tx.timeReview.findMany({ orderBy: [{ decidedAt: 'asc' }, { id: 'asc' }] });
  const decided = new Map(
    reviews.map((review) => [review.itemId ?? review.historyItemId, review] as const),
  );
  const catalogue = await tasksByKey(tx);
  return rows.map((row) => {
    const review = decided.get(row.itemId ?? row.historyItemId);
    const key = review?.task ?? row.task;
    const task = catalogue.get(key);
    const found = conditionsFrom(row);
    return {
      historyItemId: row.historyItemId,
      itemId: row.itemId,
      completedOn: row.completedOn,
      verdict: review?.verdict ?? null,
      task: key,
      jasc: (review?.task ? task?.jasc : undefined) ?? row.jasc ?? task?.jasc,
      standardHours: (review?.task ? null : row.standardHours) ?? task?.standardHours,
      model: row.model || undefined,
      registration: row.registration || undefined,
      mechanics: sharesOf(row.mechanics),
      place: found,
      statedFor: task?.statedFor(row.model, found),
      hours: review?.hours ?? row.hours,
      censored: row.censored && review?.verdict !== 'taken_as',
    };
  });
}

/** Past items without those that a person left out. */
export const learnedFrom = (items: readonly PastItem[]): PastItem[] =>
  items.filter(({ verdict }) => verdict !== 'left_out');

/** Shares that add to 1. */
function sharesOf(mechanics: Row['mechanics']): Row['mechanics'] {
  const sum = mechanics.reduce((total, { share }) => total + share, 0);
  return mechanics.map(({ name, share }) => ({ name, share: share / sum }));
}

/** What the catalogue says of each task, and which place its standard time was stated for. */
async function tasksByKey(tx: Pick<Tx, 'task'>) {
  const tasks = await tx.task.findMany({
    select: {
      key: true,
      jasc: true,
      standardHours: true,
      standardAccess: true,
      places: {
        select: { access: true, model: { select: { maker: true, name: true } } },
      },
    },
  });
  return new Map(
    tasks.map((task) => {
      const places = new Map(
        task.places.map(({ model, access }) => [
          `${model.maker} ${model.name}`,
          conditionsFrom(access),
        ]),
      );
      const standardHours = task.standardHours?.toNumber();
      return [
        task.key,
        {
          jasc: task.jasc,
          standardHours,
          /** As installed on the model where nothing else is said: then only what differs from the plan counts. */
          statedFor: (model: string, found: AccessConditions | undefined) =>
            standardHours === undefined
              ? undefined
              : (conditionsFrom(task.standardAccess) ?? places.get(model) ?? found),
        },
      ] as const;
    }),
  );
}
