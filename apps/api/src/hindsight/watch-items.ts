import type { Tx } from '@fairlead/database';
import { globalId } from '../ids.ts';
import { weeksOf } from '../people/queries.ts';
import type { PastItem } from './done-items.ts';
import { hoursPresent, type NightStretch } from './hours-present.ts';
import { NEWEST_WATCHED, type WatchedPast } from './odd-times-of.ts';

/**
 * Past items with what only the clock and the order know: which order each belongs to, and how long its people were in,
 * where a stretch ran over midnight and somebody has said when they are here. As many statements for few as for many.
 */
export async function watchItems(
  tx: Tx,
  items: readonly PastItem[],
): Promise<(PastItem & WatchedPast)[]> {
  const own = items.flatMap(({ itemId }) => itemId ?? []).slice(-NEWEST_WATCHED);
  const ordered = await tx.workItem.findMany({
    where: { id: { in: own } },
    select: { id: true, orderId: true },
  });
  const orderOf = new Map(ordered.map(({ id, orderId }) => [id, orderId]));
  const idle = await hoursAway(tx);
  return items.map((item) => {
    const away = idle.get(item.itemId ?? '') ?? 0;
    const present = item.hours - away;
    return {
      ...item,
      id: item.itemId
        ? globalId('WorkItem', item.itemId)
        : globalId('HistoryItem', item.historyItemId ?? ''),
      order: orderOf.get(item.itemId ?? ''),
      presentHours: away > 0 && present > 0 ? present : undefined,
    };
  });
}

/** Hours clocked over midnight while nobody was in, by item. */
async function hoursAway(tx: Tx): Promise<Map<string, number>> {
  const nights = await tx.$queryRaw<(NightStretch & { itemId: string })[]>`
    SELECT s.item_id AS "itemId", s.person_id AS "personId", s.started_at AS "startedAt", s.ended_at AS "endedAt"
    FROM stretch s JOIN shop ON shop.id = s.shop_id
    WHERE s.shop_id = current_shop() AND s.ended_at IS NOT NULL
      AND (s.started_at AT TIME ZONE shop.time_zone)::date < (s.ended_at AT TIME ZONE shop.time_zone)::date`;
  const presence = await weeksOf(
    tx,
    nights.map(({ personId }) => personId),
  );
  const away = new Map<string, number>();
  for (const night of nights) {
    const present = hoursPresent(night, presence(night.personId));
    if (present === null) continue;
    const long = (night.endedAt.getTime() - night.startedAt.getTime()) / 3_600_000;
    away.set(night.itemId, (away.get(night.itemId) ?? 0) + long - present);
  }
  return away;
}
