import type { Prisma, Tx } from '@fairlead/database';
import type { OtherWork, ShopDay } from '@fairlead/hangar';
import { Temporal } from 'temporal-polyfill';
import { sayDay } from '../../given.ts';
import { presenceAhead } from '../../people/queries.ts';
import { itemFacts, itemState } from '../../states.ts';

/** How far ahead somebody's weeks are looked at. */
export const DAYS_AHEAD = 400;

/** A place in the shop's own time: its civil day, and the minute of it. */
export interface Begins {
  /** Midnight UTC of the civil day. */
  day: Date;
  minute: number;
}

export function beginsAt(instant: Date, timeZone: string): Begins {
  const here = Temporal.Instant.fromEpochMilliseconds(instant.getTime()).toZonedDateTimeISO(
    timeZone,
  );
  return {
    day: new Date(`${here.toPlainDate().toString()}T00:00:00Z`),
    minute: here.hour * 60 + here.minute,
  };
}

const known = new WeakMap<Tx, Map<string, Promise<ShopDay[]>>>();

/** Who is in on each day from one on; asked once a reader and beginning, since one sheet asks for many promises. */
export function daysAhead(read: Tx, { day }: Begins): Promise<ShopDay[]> {
  const asked = known.get(read) ?? new Map<string, Promise<ShopDay[]>>();
  known.set(read, asked);
  const key = sayDay(day);
  const days =
    asked.get(key) ??
    presenceAhead(read, day, DAYS_AHEAD).then((ahead) =>
      ahead.map(({ day: each, present, usual }) => ({
        day: sayDay(each),
        people: present.map(({ pieces }) => pieces),
        usual,
      })),
    );
  asked.set(key, days);
  return days;
}

const HOUR = 3_600_000;

/** Hands-on hours so far, all people added; a clock that runs counts up to now. */
export const clockedHours = (
  stretches: readonly { startedAt: Date; endedAt: Date | null }[],
  now: Date,
): number =>
  stretches.reduce(
    (sum, { startedAt, endedAt }) =>
      sum + Math.max(0, (endedAt ?? now).getTime() - startedAt.getTime()),
    0,
  ) / HOUR;

/** Orders that are not over. */
const liveOrders: Prisma.WorkOrderWhereInput = {
  events: { none: { kind: { in: ['released', 'closed', 'cancelled'] } } },
};

/**
 * What was promised to other aircraft and takes the same people: of each order that is not over the hours that were quoted
 * as likely as not, less what was clocked, of the items that are neither done nor waiting. An order whose aircraft is not
 * here counts from the day on which it is planned; one without such a day does not.
 *
 * @param exceptOrderId the order that is asked for
 */
export async function otherWork(
  read: Tx,
  { exceptOrderId, now, timeZone }: { exceptOrderId: string | null; now: Date; timeZone: string },
): Promise<OtherWork[]> {
  const orders = await read.workOrder.findMany({
    where: { ...liveOrders, ...(exceptOrderId && { id: { not: exceptOrderId } }) },
    orderBy: { number: 'asc' },
    select: {
      plannedFor: true,
      events: { where: { kind: 'arrived' }, select: { id: true } },
      stays: {
        where: { kind: 'planned' },
        orderBy: { startsAt: 'asc' },
        take: 1,
        select: { startsAt: true },
      },
      items: {
        select: {
          ...itemFacts,
          stretches: { select: { startedAt: true, endedAt: true } },
          quoteLine: { select: { hoursP50: true } },
        },
      },
    },
  });
  const today = sayDay(beginsAt(now, timeZone).day);
  return orders.flatMap(({ plannedFor, events, stays, items }) => {
    const comes = plannedFor ?? stays[0]?.startsAt ?? null;
    if (events.length === 0 && comes === null) return [];
    const from = events.length > 0 || !comes ? today : sayDay(beginsAt(comes, timeZone).day);
    const hours = items.reduce((sum, item) => {
      if (!['open', 'in_work'].includes(itemState(item))) return sum;
      const quoted = item.quoteLine?.hoursP50?.toNumber() ?? 0;
      return sum + Math.max(0, quoted - clockedHours(item.stretches, now));
    }, 0);
    return hours > 0 ? [{ from, hours }] : [];
  });
}
