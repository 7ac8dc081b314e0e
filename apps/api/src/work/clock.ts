import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { itemFacts, itemState } from '../states.ts';
import { clientId, deviceTime } from './limits.ts';
import { holdClock, rebuildStretches } from './rebuild-stretches.ts';

export interface ClockInput {
  kind: 'start' | 'switch' | 'stop';
  itemId: string | null;
  at: Date;
  clientEventId: string;
}

/**
 * Appends what a person's clock did. Never refused for money or state: only for what cannot be true. The same
 * event sent twice, also at once, is recorded once.
 */
export async function clock(context: Context, input: ClockInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const at = deviceTime(input.at, context.now(), 'at');
  const clientEventId = clientId(input.clientEventId);
  if (input.kind !== 'stop' && !input.itemId)
    throw new Refused(
      'BAD_INPUT',
      `A ${input.kind} was given without an item: needed is itemId, the item that the clock goes to.`,
      'itemId',
    );

  return context.write(async (tx) => {
    // load
    await holdClock(tx, personId);
    const known = await tx.clockEvent.findFirst({
      where: { clientEventId },
      select: { id: true, personId: true },
    });
    if (known?.personId === personId) return known.id;
    if (known)
      throw new Refused(
        'CONFLICT',
        'This clock event is recorded already, for somebody else: needed is a new clientEventId.',
        'clientEventId',
      );
    const item = input.itemId
      ? await tx.workItem.findUnique({
          where: { id: input.itemId },
          select: {
            id: true,
            ...itemFacts,
            events: { ...itemFacts.events, select: { kind: true, at: true } },
          },
        })
      : null;
    if (input.itemId && !item) throw notFound('item');
    // save
    const made = await tx.clockEvent.create({
      data: { personId, kind: input.kind, itemId: input.itemId, at, clientEventId },
      select: { id: true },
    });
    await rebuildStretches(tx, personId, at);
    // Whoever takes up an item that waits has what it waited for. An old event that arrives late says nothing of now.
    const waited =
      item && itemState(item) === 'waiting'
        ? item.events.findLast(({ kind }) => kind === 'waiting')
        : null;
    if (item && waited && input.kind !== 'stop' && at >= waited.at)
      await tx.itemEvent.create({
        data: { itemId: item.id, kind: 'resumed', at: context.now(), byId: personId },
      });
    return made.id;
  });
}
