import type { OurCostKind } from '@fairlead/database';
import { dayBegins } from '../civil-day.ts';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';

export interface OurCostHours {
  kind: OurCostKind;
  seconds: number;
  items: number;
}

const MOST_DAYS = 3660;

/** What was clocked between two civil days on items that are at the shop's own cost now, each stretch cut at the ends. For the manager. */
export async function ourCostHours(
  context: Context,
  { from, until }: { from: Date; until: Date },
): Promise<OurCostHours[]> {
  await allow(context, 'manager');
  if (until < from || until.getTime() - from.getTime() > MOST_DAYS * 86_400_000)
    throw new Refused(
      'BAD_INPUT',
      `The days ${sayDay(from)} to ${sayDay(until)} were refused: needed are two in order, at most ten years apart.`,
      'until',
    );
  const { timeZone } = await context.read.shop.findFirstOrThrow({ select: { timeZone: true } });
  const [begins, ends] = [dayBegins(from, timeZone), dayBegins(until, timeZone, 1)];
  const now = context.now();
  return context.read.$queryRaw<OurCostHours[]>`
    SELECT last.kind::text AS kind, count(DISTINCT s.item_id)::int AS items,
      coalesce(sum(extract(epoch FROM least(coalesce(s.ended_at, ${now}), ${ends}) - greatest(s.started_at, ${begins}))), 0)::int AS seconds
    FROM stretch s
    JOIN LATERAL (SELECT a.kind FROM at_our_cost a WHERE a.shop_id = s.shop_id AND a.item_id = s.item_id
      ORDER BY a.at DESC, a.id DESC LIMIT 1) last ON last.kind IS NOT NULL
    WHERE s.shop_id = current_shop() AND s.started_at < ${ends} AND coalesce(s.ended_at, ${now}) > ${begins}
    GROUP BY last.kind ORDER BY last.kind`;
}
