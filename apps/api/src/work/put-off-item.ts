import { allow, type Context } from '../context.ts';
import { askRefit } from '../hindsight/index.ts';
import { refuseUntaken } from '../safety/queries.ts';
import { appendItemEvent, isRecorded, type Noted, notedMoment } from './item-event.ts';
import { itemForChange, needState, refuseOutsideVisit, refuseRunning } from './item-for-change.ts';
import { text } from './limits.ts';

/** Says that an item is not done on this visit, and why. */
export async function putOffItem(
  context: Context,
  input: { itemId: string; reason: string; noted?: Noted | null },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const note = text(input.reason, 'reason', { least: 3, most: 500 });
  const moment = notedMoment(input.noted, context.now());
  return context.write(async (tx) => {
    const item = await itemForChange(tx, input.itemId);
    if (await isRecorded(tx, moment, item.id, personId)) return item.id;
    refuseOutsideVisit(item, { needsAircraft: false });
    if (item.state === 'put_off') return item.id;
    await needState(tx, item, 'put off', 'open', 'in_work', 'waiting');
    refuseRunning(item, 'put off');
    await refuseUntaken(tx, item, 'put off');
    await appendItemEvent(tx, item, personId, moment, { kind: 'put_off', note });
    await askRefit(tx, context.now());
    return item.id;
  });
}
