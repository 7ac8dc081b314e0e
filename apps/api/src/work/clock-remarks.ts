import type { Tx } from '@fairlead/database';
import { itemState } from '../states.ts';
import { eventWords } from './item-for-change.ts';
import { sayWhen } from './say-when.ts';

/** What arrives sooner than this was seen as it happened: nothing went on behind it. */
const LATE_MS = 60_000;

/** Something that the sender of a clock event should know, since the event is taken in any case. */
export interface ClockRemark {
  readonly clientEventId: string;
  readonly words: string;
}

/**
 * What whoever sent clock events late should know: that somebody had closed an item by then, or that their own clock went
 * on to something else on another device. One remark an item, at its first start; nothing where nothing of the kind.
 *
 * @param ids of clock events of one person, all recorded
 */
export async function clockRemarks(read: Tx, ids: readonly string[]): Promise<ClockRemark[]> {
  const events = await read.clockEvent.findMany({
    where: { id: { in: [...ids] }, kind: { in: ['start', 'switch'] } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  });
  const late = events.filter(({ at, receivedAt }) => +receivedAt - +at >= LATE_MS);
  const last = late.at(-1);
  if (!last) return [];
  const { timeZone } = await read.shop.findFirstOrThrow({ select: { timeZone: true } });
  const closed = await closedItems(
    read,
    late.flatMap(({ itemId }) => itemId ?? []),
    timeZone,
  );
  // In the order in which they were worked on, not the one in which the database happens to answer.
  const ofItems = [...new Set(late.map(({ itemId }) => itemId))].flatMap((item) => {
    const words = item === null ? undefined : closed.get(item);
    const first = late.find(({ itemId }) => itemId === item);
    return first && words ? [{ clientEventId: first.clientEventId, words }] : [];
  });
  const elsewhere = await goneOn(read, last, timeZone);
  return elsewhere === null
    ? ofItems
    : [...ofItems, { clientEventId: last.clientEventId, words: elsewhere }];
}

const ends = { cancelled: 'was cancelled', closed: 'is closed', released: 'was released' } as const;
const kept = 'What you clocked stays on it, and the desk sees it.';

async function closedItems(
  read: Tx,
  ids: readonly string[],
  timeZone: string,
): Promise<Map<string, string>> {
  const items = await read.workItem.findMany({
    where: { id: { in: [...ids] } },
    select: {
      id: true,
      title: true,
      critical: true,
      stretches: { select: { id: true }, take: 1 },
      events: {
        orderBy: [{ at: 'asc' }, { id: 'asc' }],
        select: { kind: true, at: true, by: { select: { name: true } } },
      },
      order: { select: { number: true, events: { select: { kind: true } } } },
    },
  });
  return new Map(
    items.flatMap((item) => {
      const happened = item.order.events.map(({ kind }) => kind);
      const end = (['cancelled', 'closed', 'released'] as const).find((each) =>
        happened.includes(each),
      );
      const last = item.events.at(-1);
      const isClosed = ['done', 'inspected', 'put_off'].includes(itemState(item));
      const said = end
        ? `“${item.title}”: order ${item.order.number} ${ends[end]} meanwhile.`
        : last && isClosed
          ? `“${item.title}”: ${last.by.name} ${eventWords[last.kind]} ${sayWhen(last.at, timeZone)}.`
          : null;
      return said === null ? [] : [[item.id, `${said} ${kept}`] as const];
    }),
  );
}

/** That the clock went on, or was stopped, on another device after the last of what this one sent. */
async function goneOn(
  read: Tx,
  last: { personId: string; at: Date; deviceId: string | null },
  timeZone: string,
): Promise<string | null> {
  if (last.deviceId === null) return null;
  const next = await read.clockEvent.findFirst({
    where: { personId: last.personId, kind: { not: 'correction' }, at: { gt: last.at } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { kind: true, at: true, deviceId: true, item: { select: { title: true } } },
  });
  if (!next || next.deviceId === last.deviceId) return null;
  const did =
    next.kind === 'stop' || next.item === null ? 'was stopped' : `went on to “${next.item.title}”`;
  return `Your clock ${did} elsewhere ${sayWhen(next.at, timeZone)}: this counts until then.`;
}
