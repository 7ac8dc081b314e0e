import { counts, type Pending, shopTimeOf } from './pending.ts';

interface ItemState {
  id: string;
  state: 'open' | 'in_work' | 'waiting' | 'done' | 'inspected' | 'put_off';
  waitingFor: 'parts' | 'owner' | 'bay' | 'help' | 'inspection' | null;
  secondsWorked: number;
  cautionsRead: boolean;
  /** Where somebody stopped, and nobody has taken over yet. */
  stoppedHere?: readonly Left[] | undefined;
  checklist?: readonly Line[] | undefined;
}

interface Left {
  id: string;
  notDone: string;
  loose: string;
  by: { id: string; name: string };
}
interface Line {
  number: number;
  initials: string | null;
  by: string | null;
  at: string | null;
}

/** An item as it stands with what this device has not brought to the shop yet; `unsent`: it then stands otherwise there. */
export type ItemNow<Item> = Item & { unsent: boolean };

/**
 * An item as it stands for whoever noted things about it that are not sent yet.
 *
 * @param pending one person's, in the order in which it was noted
 */
export function itemNow<Item extends ItemState>(
  item: Item,
  pending: readonly Pending[],
): ItemNow<Item> {
  let now: ItemNow<Item> = { ...item, unsent: false };
  let clocked = item.secondsWorked > 0;
  const become = (state: ItemState['state'], waitingFor: ItemState['waitingFor'] = null) => {
    now = { ...now, state, waitingFor, unsent: true };
  };
  for (const entry of pending) {
    if (!counts(entry)) continue;
    if (entry.kind === 'cautions' && entry.itemId === item.id) now = { ...now, cautionsRead: true };
    if (entry.kind === 'clock' && entry.input.itemId === item.id && entry.input.kind !== 'stop') {
      clocked = true;
      if (now.state === 'open' || now.state === 'waiting') become('in_work');
    }
    if (entry.kind === 'care') now = caredFor(now, entry);
    if (entry.kind !== 'change' || entry.input.itemId !== item.id) continue;
    if (entry.does === 'wait') become('waiting', entry.input.waitingFor);
    else if (entry.does === 'finish') become('done');
    else if (entry.does === 'putOff') become('put_off');
    else if (entry.does === 'secondLook') become('inspected');
    else become(clocked ? 'in_work' : 'open');
  }
  return now;
}

type Care = Extract<Pending, { kind: 'care' }>;

/** The item after a line was initialled, or what was left at it taken over or added to. */
function caredFor<Item extends ItemState>(item: Item, entry: Care): Item {
  const at = new Date(shopTimeOf(entry)).toISOString();
  if (entry.does === 'takeOver') {
    const { handOverId } = entry.input;
    return { ...item, stoppedHere: item.stoppedHere?.filter(({ id }) => id !== handOverId) };
  }
  if (entry.does !== 'leave' && entry.does !== 'initial') return item;
  if (entry.input.itemId !== item.id) return item;
  if (entry.does === 'leave') {
    const { done, notDone, loose } = entry.input;
    const left = {
      ...{ id: entry.id, done: done ?? '', notDone, loose: loose ?? '', at, unsent: true },
      ...{ item: null, by: { id: entry.personId, name: entry.name } },
    };
    return { ...item, stoppedHere: [...(item.stoppedHere ?? []), left] };
  }
  const { line, kind } = entry.input;
  const under =
    kind === 'initialled'
      ? { initials: entry.initials, by: entry.name, at }
      : { initials: null, by: null, at: null };
  return {
    ...item,
    checklist: item.checklist?.map((each) =>
      each.number === line && (each.initials === null) !== (under.initials === null)
        ? { ...each, ...under }
        : each,
    ),
  };
}
