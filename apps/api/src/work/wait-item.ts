import type { WaitingFor } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { itemForChange, needState, refuseOutsideVisit, refuseRunning } from './item-for-change.ts';
import { text } from './limits.ts';

/** Says that an item waits, and for what. Waiting again for something else is said by doing it again. */
export async function waitItem(
  context: Context,
  input: { itemId: string; waitingFor: WaitingFor; note: string },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const note = text(input.note, 'note', { most: 500 });
  return context.write(async (tx) => {
    // load
    const item = await itemForChange(tx, input.itemId);
    // decide
    refuseOutsideVisit(item);
    needState(item, 'set to wait', 'open', 'in_work', 'waiting');
    refuseRunning(item, 'set to wait');
    const last = item.events.at(-1);
    if (last?.kind === 'waiting' && last.waitingFor === input.waitingFor && note === '')
      return item.id;
    // save
    await tx.itemEvent.create({
      data: {
        itemId: item.id,
        kind: 'waiting',
        waitingFor: input.waitingFor,
        note,
        at: context.now(),
        byId: personId,
      },
    });
    return item.id;
  });
}
