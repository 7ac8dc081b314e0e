import type { Prisma, Tx } from '@fairlead/database';
import { currency, lineNet, type Minor, storageFor } from '@fairlead/money';
import { civilDay } from '../civil-day.ts';
import { sayDay } from '../given.ts';

/** What storage of an order's aircraft follows from. */
const storageFacts = {
  number: true,
  readyNotices: { orderBy: [{ toldAt: 'asc' }, { id: 'asc' }], take: 1, select: { toldAt: true } },
  charges: {
    where: { ends: { none: {} }, storageDays: { not: null } },
    select: { storageDays: true },
  },
  events: { where: { kind: 'closed' }, select: { at: true } },
  aircraft: {
    select: {
      registration: true,
      stays: {
        where: { kind: 'actual' },
        orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
        select: { startsAt: true, endsAt: true },
      },
    },
  },
} as const satisfies Prisma.WorkOrderSelect;

/** Storage of an aircraft after it was told ready, by the shop's rule of now. Days are civil days where the shop is. */
export interface Storage {
  toldOn: Date;
  /** The day on which it left, or today. */
  lastOn: Date;
  left: boolean;
  freeDays: number;
  dayPrice: string;
  days: number;
  /** Of those, what is on the order already. */
  charged: number;
  /** What the others come to, before tax; nothing is charged by itself. */
  open: Minor;
}

/** @returns null where the shop charges none, nobody was told, or there is no such order */
export async function storageOf(read: Tx, orderId: string, now: Date): Promise<Storage | null> {
  const rule = await read.storageRule.findFirst({
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { freeDays: true, dayPrice: true },
  });
  if (!rule?.dayPrice) return null;
  const order = await read.workOrder.findUnique({ where: { id: orderId }, select: storageFacts });
  const toldAt = order?.readyNotices[0]?.toldAt;
  if (!order || !toldAt) return null;
  const shop = await read.shop.findFirstOrThrow({ select: { timeZone: true, currency: true } });
  const leftAt = leftOf(order, toldAt);
  const [toldOn, lastOn] = [toldAt, leftAt ?? now].map((at) => civilDay(at, shop.timeZone)) as [
    Date,
    Date,
  ];
  const { freeDays } = rule;
  const dayPrice = rule.dayPrice.toFixed();
  const code = currency(shop.currency);
  const { days } = storageFor(
    { toldOn: sayDay(toldOn), lastOn: sayDay(lastOn), rule: { freeDays, dayPrice } },
    code,
  );
  const charged = order.charges.reduce((sum, { storageDays }) => sum + (storageDays ?? 0), 0);
  const open = lineNet({ quantity: `${Math.max(0, days - charged)}`, unitPrice: dayPrice }, code);
  return { toldOn, lastOn, left: leftAt !== null, freeDays, dayPrice, days, charged, open };
}

/** When the aircraft left after it was told ready: off its stand for good, or else, where it stood on none, when the order was closed. */
function leftOf(
  {
    aircraft: { stays },
    events,
  }: {
    aircraft: { stays: readonly { startsAt: Date; endsAt: Date | null }[] };
    events: readonly { at: Date }[];
  },
  toldAt: Date,
): Date | null {
  const since = stays.filter(({ endsAt }) => endsAt === null || endsAt >= toldAt);
  // From one stand to another it does not leave; what it came back for later is another stay.
  let left: Date | null = null;
  for (const { startsAt, endsAt } of since) {
    if (left !== null && startsAt.getTime() - left.getTime() > 3_600_000) break;
    left = endsAt;
    if (endsAt === null) break;
  }
  return since.length > 0 ? left : (events[0]?.at ?? null);
}
