import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { itemFacts, itemState } from '../states.ts';
import { type ClockEventGiven, type ClockInput, givenEvents } from './clock-given.ts';
import { holdClock, rebuildStretches } from './rebuild-stretches.ts';
import { supervisorsAmong, wrongSupervisor } from './supervision.ts';

/** One event of a person's clock, recorded or refused. The same event sent twice, also at once, is recorded once. */
export async function clock(context: Context, input: ClockInput): Promise<string> {
  const [answer] = await clockMany(context, [input]);
  if (answer === undefined || answer instanceof Refused) throw answer ?? notFound('clock event');
  return answer;
}

/**
 * Appends what a person's clock did, in the order in which it did it: all that gathered while a telephone was away, in
 * one transaction. Never refused for money or state: only for what cannot be true, and then alone, since the others are.
 *
 * @returns for each event its key, or why it was refused
 */
export async function clockMany(
  context: Context,
  inputs: readonly ClockInput[],
): Promise<(string | Refused)[]> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const now = context.now();
  const given = givenEvents(inputs, now);

  return context.write(async (tx) => {
    // load
    await holdClock(tx, personId);
    const events = given.flatMap((each) => (each instanceof Refused ? [] : [each]));
    const known = await tx.clockEvent.findMany({
      where: { clientEventId: { in: events.map(({ clientEventId }) => clientEventId) } },
      select: { id: true, personId: true, clientEventId: true },
    });
    const items = await itemsOf(tx, events);
    const named = new Set(events.flatMap(({ supervisedById }) => supervisedById ?? []));
    const supervisors = await supervisorsAmong(tx, [...named]);
    // decide
    const recorded = new Map(known.map((event) => [event.clientEventId, event]));
    const refusalOf = ({ clientEventId, itemId, supervisedById }: ClockEventGiven) => {
      if ((recorded.get(clientEventId)?.personId ?? personId) !== personId)
        return takenBySomebody();
      if (itemId !== null && !items.has(itemId)) return notFound('item');
      const known = supervisedById === null || supervisors.has(supervisedById);
      return known && supervisedById !== personId ? null : wrongSupervisor();
    };
    const fresh = new Map(
      events
        .filter((event) => !recorded.has(event.clientEventId) && refusalOf(event) === null)
        .map((event) => [event.clientEventId, event]),
    );
    const made = [...fresh.values()];
    // save
    const saved = await tx.clockEvent.createManyAndReturn({
      data: made.map((event) => ({ ...event, personId, receivedAt: now })),
      select: { id: true, personId: true, clientEventId: true },
    });
    for (const event of saved) recorded.set(event.clientEventId, event);
    if (made.length > 0)
      await rebuildStretches(tx, personId, new Date(Math.min(...made.map(({ at }) => +at))));
    await endWaits(tx, personId, made, items);
    return given.map((event) =>
      event instanceof Refused
        ? event
        : (refusalOf(event) ?? recorded.get(event.clientEventId)?.id ?? notFound('clock event')),
    );
  });
}

const takenBySomebody = () =>
  new Refused(
    'CONFLICT',
    'This clock event is recorded already, for somebody else: needed is a new clientEventId.',
    'clientEventId',
  );

async function itemsOf(tx: Tx, events: readonly ClockEventGiven[]) {
  const ids = [...new Set(events.flatMap(({ itemId }) => itemId ?? []))];
  const items = await tx.workItem.findMany({
    where: { id: { in: ids } },
    select: {
      id: true,
      ...itemFacts,
      events: { ...itemFacts.events, select: { kind: true, at: true } },
    },
  });
  return new Map(items.map((item) => [item.id, item]));
}

/** Whoever takes up an item that waits has what it waited for. An old event that arrives late says nothing of now. */
async function endWaits(
  tx: Tx,
  byId: string,
  events: readonly ClockEventGiven[],
  items: Awaited<ReturnType<typeof itemsOf>>,
): Promise<void> {
  const resumed = [...items.values()].flatMap((item) => {
    const waited =
      itemState(item) === 'waiting' ? item.events.findLast(({ kind }) => kind === 'waiting') : null;
    const taken = events.find(
      ({ kind, itemId, at }) => kind !== 'stop' && itemId === item.id && waited && at >= waited.at,
    );
    if (!waited || !taken) return [];
    const at = new Date(Math.max(+taken.at, +waited.at + 1));
    return [{ itemId: item.id, kind: 'resumed' as const, at, byId }];
  });
  if (resumed.length > 0) await tx.itemEvent.createMany({ data: resumed });
}
