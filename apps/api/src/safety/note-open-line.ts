import type { OpenKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { givenText } from '../given.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { visitForChange } from './visit-for-change.ts';

export interface NoteOpenLineInput extends GivenEvent {
  orderId: string;
  /** The item for which it was opened; null: for the order. */
  itemId: string | null;
  kind: OpenKind;
  words: string;
  place: string;
}

/** Notes that something was opened or taken off: it has to be closed or refitted before the aircraft goes. */
export async function noteOpenLine(context: Context, input: NoteOpenLineInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const given = {
    words: givenText(input.words, 'words', { least: 2, most: 200 }),
    place: givenText(input.place, 'place', { most: 120 }),
    ...givenEvent(input, context),
  };
  return context.write(async (tx) => {
    // load
    const { orderId, itemId, kind } = input;
    await visitForChange(tx, orderId, itemId);
    const known = await tx.openLine.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { id: true, byId: true },
    });
    // decide
    if (sentBefore(known, personId)) return known.id;
    // save
    const { id } = await tx.openLine.create({
      data: { orderId, itemId, kind, byId: personId, ...given },
      select: { id: true },
    });
    return id;
  });
}
