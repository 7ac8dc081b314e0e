import type { Tx } from '@fairlead/database';
import { hoursQuantile } from '@fairlead/labour';
import { askedFacts, askedOfItem, modelKept } from '../hindsight/index.ts';
import { weeksOf } from '../people/queries.ts';
import { type WhyForgotten, whyForgotten } from './forgotten-clock.ts';
import { shiftEnd } from './shift-end.ts';

const DAY_MS = 24 * 3_600_000;
/** Older ones nobody remembers; what they taught the hours is asked about elsewhere. */
const LOOK_BACK_MS = 14 * DAY_MS;
/** A time that is merely unusual is asked about while it is fresh. */
const UNUSUAL_FOR_MS = 3 * DAY_MS;

interface Row {
  id: string;
  personId: string;
  itemId: string;
  startedAt: Date;
  endedAt: Date | null;
  /** As quoted: nine in ten such items take fewer hours. Null: not quoted. */
  p90: number | null;
}

/** A stretch that looks as if its clock had been left running. */
export interface LongStretch extends Row {
  why: WhyForgotten;
  /** When its person's hours ended; null where nothing says when they are in. */
  end: Date | null;
  p99Hours: number | null;
}

/**
 * The stretches that look forgotten, whatever was said of them since: of one person, or of everybody who works here.
 * What is asked of the model is asked for few: only what ran longer than its quote's nine in ten, or was not quoted.
 */
export async function longStretches(
  read: Tx,
  personId: string | null,
  now: Date,
): Promise<LongStretch[]> {
  const rows = await read.$queryRaw<Row[]>`
    SELECT s.id, s.person_id AS "personId", s.item_id AS "itemId", s.started_at AS "startedAt", s.ended_at AS "endedAt",
      q.hours_p90::float8 AS p90
    FROM stretch s JOIN person p ON p.shop_id = s.shop_id AND p.id = s.person_id AND p.active
    JOIN work_item i ON i.shop_id = s.shop_id AND i.id = s.item_id
    LEFT JOIN quote_line q ON q.shop_id = i.shop_id AND q.id = i.quote_line_id
    WHERE s.shop_id = current_shop() AND (${personId}::uuid IS NULL OR s.person_id = ${personId}::uuid)
      AND (s.ended_at IS NULL OR s.ended_at >= ${new Date(+now - LOOK_BACK_MS)})
      AND coalesce(s.ended_at, ${now}) - s.started_at > interval '1 hour'
    ORDER BY s.started_at, s.id`;
  if (rows.length === 0) return [];
  const presence = await weeksOf(
    read,
    rows.map((row) => row.personId),
  );
  const stretches = rows.map((row) => ({
    ...row,
    end: shiftEnd(row.startedAt, presence(row.personId)),
  }));
  const judge = (row: (typeof stretches)[number], p99Hours: number | null) =>
    whyForgotten({ ...row, since: row.startedAt }, { end: row.end, p99Hours }, now);
  const unusual = stretches.filter(
    (row) =>
      judge(row, null) === null &&
      +(row.endedAt ?? now) > +now - UNUSUAL_FOR_MS &&
      (+(row.endedAt ?? now) - +row.startedAt) / 3_600_000 > (row.p90 ?? 1),
  );
  const p99 = await longestOf(
    read,
    unusual.map(({ itemId }) => itemId),
  );
  return stretches.flatMap((row) => {
    const p99Hours = p99.get(row.itemId) ?? null;
    const why = judge(row, p99Hours);
    return why === null ? [] : [{ ...row, why, p99Hours }];
  });
}

/** The hours that 99 in 100 such items stay under, by the model that the shop's own work has taught. */
async function longestOf(read: Tx, itemIds: readonly string[]): Promise<Map<string, number>> {
  if (itemIds.length === 0) return new Map();
  const model = await modelKept(read);
  if (model === null) return new Map();
  const items = await read.workItem.findMany({
    where: { id: { in: [...itemIds] } },
    select: {
      id: true,
      ...askedFacts,
      order: {
        select: {
          aircraft: {
            select: { registration: true, model: { select: { maker: true, name: true } } },
          },
        },
      },
    },
  });
  return new Map(
    items.flatMap((item) => {
      const { predictive } = model.predictor.estimate(askedOfItem(item, item.order.aircraft));
      try {
        return [[item.id, hoursQuantile(predictive, 0.99)] as const];
      } catch (error) {
        // Too wide to say: then no length is improbable.
        if (error instanceof RangeError) return [];
        throw error;
      }
    }),
  );
}
