import { allow, type Context } from '../context.ts';
import { itemForChange, needState, refuseOutsideVisit, refuseRunning } from './item-for-change.ts';
import { text } from './limits.ts';

/** Says that an item is not done on this visit, and why. */
export async function putOffItem(
  context: Context,
  input: { itemId: string; reason: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const note = text(input.reason, 'reason', { least: 3, most: 500 });
  return context.write(async (tx) => {
    const item = await itemForChange(tx, input.itemId);
    refuseOutsideVisit(item, { needsAircraft: false });
    if (item.state === 'put_off') return item.id;
    needState(item, 'put off', 'open', 'in_work', 'waiting');
    refuseRunning(item, 'put off');
    await tx.itemEvent.create({
      data: { itemId: item.id, kind: 'put_off', note, at: context.now(), byId: personId },
    });
    return item.id;
  });
}
