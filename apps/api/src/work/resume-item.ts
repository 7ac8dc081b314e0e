import { allow, type Context } from '../context.ts';
import { itemForChange, needState, refuseOutsideVisit } from './item-for-change.ts';

/** Says that what an item waited for has come. Starting its clock says the same. */
export async function resumeItem(context: Context, input: { itemId: string }): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  return context.write(async (tx) => {
    const item = await itemForChange(tx, input.itemId);
    refuseOutsideVisit(item);
    if (item.events.at(-1)?.kind === 'resumed') return item.id;
    needState(item, 'resumed', 'waiting');
    await tx.itemEvent.create({
      data: { itemId: item.id, kind: 'resumed', at: context.now(), byId: personId },
    });
    return item.id;
  });
}
