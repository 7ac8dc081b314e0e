import type { ItemEventKind, Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { type ItemState, itemState } from '../states.ts';
import { sayWhen } from './say-when.ts';

/** What somebody must know of an item before they change what happened to it. Held to the end of the transaction. */
export async function itemForChange(tx: Tx, itemId: string) {
  await holdFor(tx, 'item', itemId);
  const item = await tx.workItem.findUnique({
    where: { id: itemId },
    select: {
      id: true,
      position: true,
      title: true,
      critical: true,
      events: {
        orderBy: [{ at: 'asc' }, { id: 'asc' }],
        select: {
          id: true,
          kind: true,
          at: true,
          byId: true,
          workDone: true,
          note: true,
          waitingFor: true,
          by: { select: { name: true } },
        },
      },
      stretches: { select: { personId: true, endedAt: true, person: { select: { name: true } } } },
      entryItems: { take: 1, select: { entryId: true } },
      order: {
        select: {
          number: true,
          aircraft: { select: { registration: true } },
          events: { select: { kind: true } },
        },
      },
    },
  });
  if (!item) throw notFound('item');
  return { ...item, state: itemState(item), name: `Item ${item.position}, “${item.title}”,` };
}

export type ItemForChange = Awaited<ReturnType<typeof itemForChange>>;

const ends = { released: 'was released', closed: 'is closed', cancelled: 'was cancelled' } as const;

/** Work on an order ends with it. `needsAircraft`: the aircraft has to be here as well. */
export function refuseOutsideVisit(
  { order }: Pick<ItemForChange, 'order'>,
  { needsAircraft = true } = {},
): void {
  const happened = order.events.map(({ kind }) => kind);
  for (const end of ['cancelled', 'closed', 'released'] as const)
    if (happened.includes(end))
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} ${ends[end]}: nothing of its items can be changed. Open a new order for what is still to be done.`,
      );
  if (needsAircraft && !happened.includes('arrived'))
    throw new Refused(
      'AGAINST_RULE',
      `${order.aircraft.registration} has not arrived for order ${order.number}: receive it first.`,
    );
}

const stateWords: Record<ItemState, string> = {
  open: 'open',
  in_work: 'in work',
  waiting: 'waiting',
  done: 'done',
  inspected: 'inspected',
  put_off: 'put off',
};

/**
 * Refuses unless the item is in one of the states that what is asked for needs. Who was away with a telephone reads who
 * came first, when, and with which words.
 */
export async function needState(
  tx: Tx,
  item: ItemForChange,
  action: string,
  ...states: [ItemState, ...ItemState[]]
): Promise<void> {
  if (states.includes(item.state)) return;
  const needed = states.map((state) => stateWords[state]).join(' or ');
  throw new Refused(
    'CONFLICT',
    `${item.name} cannot be ${action}: it is ${stateWords[item.state]}; needed is one that is ${needed}.${await whoCameFirst(tx, item)}`,
  );
}

/** The event that the state of an item follows from, as a sentence; empty where there is none. */
async function whoCameFirst(tx: Tx, { events }: ItemForChange): Promise<string> {
  const last = events.at(-1);
  if (!last) return '';
  const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
  const words = last.workDone || last.note;
  return ` ${last.by.name} ${eventWords[last.kind]} ${sayWhen(last.at, timeZone)}${words === '' ? '' : `: “${words.slice(0, 200)}”`}.`;
}

/** What somebody did to an item, behind their name. */
export const eventWords: Record<ItemEventKind, string> = {
  waiting: 'set it to wait',
  resumed: 'said that it waits no more',
  done: 'said that it is done',
  reopened: 'opened it again',
  initialled: 'initialled it',
  second_inspected: 'inspected it a second time',
  put_off: 'put it off',
};

/** Refuses while somebody's clock runs on the item, and says whose. */
export function refuseRunning(item: ItemForChange, action: string): void {
  const names = [
    ...new Set(item.stretches.filter(({ endedAt }) => !endedAt).map(({ person }) => person.name)),
  ];
  if (names.length > 0)
    throw new Refused(
      'CONFLICT',
      `${item.name} cannot be ${action} while the clock of ${names.join(' and ')} runs on it: stop that first.`,
    );
}

/** What happened since the item was last done or taken up again: older initials no longer count. */
export const sinceDone = ({ events }: Pick<ItemForChange, 'events'>) =>
  events.slice(events.findLastIndex(({ kind }) => kind === 'done' || kind === 'reopened') + 1);

/** Who put a hand to it: clocked on it, or said that it was done. */
export function workedOn(item: ItemForChange, personId: string): boolean {
  return (
    item.stretches.some((stretch) => stretch.personId === personId) ||
    item.events.some(({ kind, byId }) => kind === 'done' && byId === personId)
  );
}
