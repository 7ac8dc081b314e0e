import type { WaitingFor } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { appendItemEvent, isRecorded, type Noted, notedMoment } from './item-event.ts';
import { itemForChange, needState, refuseOutsideVisit, refuseRunning } from './item-for-change.ts';
import { text } from './limits.ts';

/** Says that an item waits, and for what. Waiting again for something else is said by doing it again. */
export async function waitItem(
  context: Context,
  input: { itemId: string; waitingFor: WaitingFor; note: string; noted?: Noted | null },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const note = text(input.note, 'note', { most: 500 });
  const moment = notedMoment(input.noted, context.now());
  return context.write(async (tx) => {
    // load
    const item = await itemForChange(tx, input.itemId);
    if (await isRecorded(tx, moment, item.id, personId)) return item.id;
    // decide
    refuseOutsideVisit(item);
    await needState(tx, item, 'set to wait', 'open', 'in_work', 'waiting');
    refuseRunning(item, 'set to wait');
    const last = item.events.at(-1);
    if (last?.kind === 'waiting' && last.waitingFor === input.waitingFor && note === '')
      return item.id;
    // save
    const { waitingFor } = input;
    await appendItemEvent(tx, item, personId, moment, { kind: 'waiting', waitingFor, note });
    return item.id;
  });
}
