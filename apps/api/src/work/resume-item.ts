import { allow, type Context } from '../context.ts';
import { appendItemEvent, isRecorded, type Noted, notedMoment } from './item-event.ts';
import { itemForChange, needState, refuseOutsideVisit } from './item-for-change.ts';

/** Says that what an item waited for has come. Starting its clock says the same. */
export async function resumeItem(
  context: Context,
  input: { itemId: string; noted?: Noted | null },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const moment = notedMoment(input.noted, context.now());
  return context.write(async (tx) => {
    const item = await itemForChange(tx, input.itemId);
    if (await isRecorded(tx, moment, item.id, personId)) return item.id;
    refuseOutsideVisit(item);
    if (item.events.at(-1)?.kind === 'resumed') return item.id;
    await needState(tx, item, 'resumed', 'waiting');
    await appendItemEvent(tx, item, personId, moment, { kind: 'resumed' });
    return item.id;
  });
}
