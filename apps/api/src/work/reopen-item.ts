import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { askRefit } from '../hindsight/index.ts';
import { appendItemEvent, isRecorded, type Noted, notedMoment } from './item-event.ts';
import { itemForChange, needState, refuseOutsideVisit } from './item-for-change.ts';
import { text } from './limits.ts';

/** Takes up an item again that was done, inspected or put off. Its initials no longer count. */
export async function reopenItem(
  context: Context,
  input: { itemId: string; reason: string; noted?: Noted | null },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const roles = await context.roles();
  const note = text(input.reason, 'reason', { least: 3, most: 500 });
  const moment = notedMoment(input.noted, context.now());
  return context.write(async (tx) => {
    // load
    const item = await itemForChange(tx, input.itemId);
    if (await isRecorded(tx, moment, item.id, personId)) return item.id;
    // decide
    refuseOutsideVisit(item);
    if (item.events.at(-1)?.kind === 'reopened') return item.id;
    await needState(tx, item, 'reopened', 'done', 'inspected', 'put_off');
    if (item.state !== 'done' && !roles.includes('inspector') && !roles.includes('manager'))
      throw new Refused(
        'FORBIDDEN',
        `${item.name} is ${item.state === 'inspected' ? 'inspected' : 'put off'}: an inspector or the manager can reopen it.`,
      );
    if (item.entryItems.length > 0)
      throw new Refused(
        'AGAINST_RULE',
        `${item.name} is part of a signed record entry, which is never changed: note a finding for what is still to be done.`,
      );
    // save
    await appendItemEvent(tx, item, personId, moment, { kind: 'reopened', note });
    await askRefit(tx, context.now());
    return item.id;
  });
}
