import { allow, type Context } from '../context.ts';
import { givenText } from '../given.ts';
import { itemForChange, needState } from '../work/index.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { visitForChange } from './visit-for-change.ts';

export interface LeaveHandOverInput extends GivenEvent {
  orderId: string;
  /** Stopped at this item; null: a note for the aircraft. */
  itemId: string | null;
  done: string;
  notDone: string;
  loose: string;
}

/**
 * Says where somebody stopped at an item, or what a shift leaves to the next on an aircraft. It stands before whoever
 * opens it until one of them takes it over; the item is neither finished nor put off until then.
 */
export async function leaveHandOver(context: Context, input: LeaveHandOverInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const given = {
    done: givenText(input.done, 'done', { most: 2000 }),
    notDone: givenText(input.notDone, 'notDone', { least: 3, most: 2000 }),
    loose: givenText(input.loose, 'loose', { most: 500 }),
    ...givenEvent(input, context),
  };
  return context.write(async (tx) => {
    // load
    const { orderId, itemId } = input;
    await visitForChange(tx, orderId, itemId);
    const item = itemId ? await itemForChange(tx, itemId) : null;
    const known = await tx.handOver.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { id: true, byId: true },
    });
    // decide
    if (sentBefore(known, personId)) return known.id;
    if (item) await needState(tx, item, 'left half done', 'open', 'in_work', 'waiting');
    // save
    const { id } = await tx.handOver.create({
      data: { orderId, itemId, byId: personId, ...given },
      select: { id: true },
    });
    return id;
  });
}
