import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { appendItemEvent, isRecorded, type Noted, notedMoment } from './item-event.ts';
import {
  eventWords,
  type ItemForChange,
  itemForChange,
  needState,
  refuseOutsideVisit,
  refuseRunning,
  sinceDone,
  workedOn,
} from './item-for-change.ts';
import { sayWhen } from './say-when.ts';

export interface InitialItemInput {
  itemId: string;
  /** The second, independent look at a critical item. */
  second: boolean;
  /** The first initial that stood there when it was looked at, for a look that may come late; null: whichever is there. */
  firstId?: string | null;
  noted?: Noted | null;
}

/**
 * An initial under one finished item. There is no way to initial several at once: each was looked at.
 * The first is an inspector's, who may initial what they did themselves. The second pair of eyes of a critical item
 * may be a mechanic's too, since a small shop has one inspector; never an apprentice's, nor of who did the work or
 * initialled first (common practice, no source). A look that a device sends later vouches for the item as it stood then:
 * it counts while that is how it still stands, and is refused with what happened since.
 */
export async function initialItem(context: Context, input: InitialItemInput): Promise<string> {
  const { personId } = await (input.second
    ? allow(context, 'inspector', 'mechanic')
    : allow(context, 'inspector'));
  if (input.second) await refuseApprentice(context, personId);
  const moment = notedMoment(input.noted, context.now());
  return context.write(async (tx) => {
    // load
    const item = await itemForChange(tx, input.itemId);
    if (await isRecorded(tx, moment, item.id, personId)) return item.id;
    const since = sinceDone(item);
    const first = since.find(({ kind }) => kind === 'initialled');
    const second = since.find(({ kind }) => kind === 'second_inspected');
    // decide
    const given = input.second ? second : first;
    if (given?.byId === personId) return item.id;
    refuseOutsideVisit(item);
    const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
    if (input.firstId && input.firstId !== first?.id)
      refuseChangedSince(item, input.firstId, sayWhen(moment.at, timeZone), timeZone);
    await needState(tx, item, 'initialled', 'done', 'inspected');
    if (given)
      throw new Refused(
        'CONFLICT',
        `${item.name} was ${input.second ? 'inspected a second time' : 'initialled'} by ${given.by.name} already, ${sayWhen(given.at, timeZone)}.`,
      );
    refuseRunning(item, 'initialled');
    if (input.second) refuseSecond(item, personId, first);
    // save
    const kind = input.second ? 'second_inspected' : 'initialled';
    await appendItemEvent(tx, item, personId, moment, { kind });
    return item.id;
  });
}

async function refuseApprentice({ read }: Context, personId: string): Promise<void> {
  const { name, apprentice } = await read.person.findUniqueOrThrow({
    where: { id: personId },
    select: { name: true, apprentice: true },
  });
  if (apprentice)
    throw new Refused(
      'FORBIDDEN',
      `${name} works under supervision: the second look at a critical item is for a mechanic or an inspector.`,
    );
}

/** Somebody looked at the item as it stood under a first initial that no longer counts. */
function refuseChangedSince(
  { name, events }: ItemForChange,
  firstId: string,
  when: string,
  timeZone: string,
): never {
  const looked = events.findIndex(({ id }) => id === firstId);
  const change = events
    .slice(looked + 1)
    .find(({ kind }) => looked >= 0 && (kind === 'reopened' || kind === 'done'));
  const what = change
    ? ` ${change.by.name} ${eventWords[change.kind]} ${sayWhen(change.at, timeZone)}${change.note === '' ? '' : `: “${change.note.slice(0, 200)}”`}.`
    : '';
  throw new Refused(
    'CONFLICT',
    `${name} is no longer as you looked at it ${when}.${what} Your look does not count for it: look at it as it stands now.`,
  );
}

/** The second look is somebody else's: not of who worked on it, nor of who initialled first. Common practice, no source. */
function refuseSecond(
  item: ItemForChange,
  personId: string,
  first: { byId: string } | undefined,
): void {
  if (!item.critical)
    throw new Refused('AGAINST_RULE', `${item.name} is not critical: one initial is enough.`);
  if (!first)
    throw new Refused(
      'CONFLICT',
      `${item.name} has no first initial yet: the second inspection comes after it.`,
    );
  if (first.byId === personId)
    throw new Refused(
      'AGAINST_RULE',
      `The second inspection of ${item.name} needs another pair of eyes: you gave the first initial yourself.`,
    );
  if (workedOn(item, personId))
    throw new Refused(
      'AGAINST_RULE',
      `The second inspection of ${item.name} needs another pair of eyes: you worked on it yourself.`,
    );
}
