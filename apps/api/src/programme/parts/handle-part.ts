import { partDispositions } from '@fairlead/airworthiness';
import type { PartDisposition, PartSide, Tx } from '@fairlead/database';
import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { orderFacts, orderState } from '../../states.ts';

/** In the course of which work a part goes on or comes off, and what becomes of it. */
export interface GivenHandling {
  itemId: string | null;
  disposition: PartDisposition | null;
  /** Where it is kept, or how it was made useless. */
  dispositionWords: string;
}

export interface HandlePartInput extends GivenHandling {
  fittingId: string;
  side: PartSide;
}

/** Says it of a stay afterwards, or anew: the newest word holds. An entry that was signed stays as it was. */
export async function handlePart(context: Context, input: HandlePartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  return context.write(async (tx) => {
    await holdFor(tx, 'parts', 'of the shop');
    const stay = await tx.componentFitting.findUnique({
      where: { id: input.fittingId },
      select: { aircraftId: true, removedAt: true, componentId: true },
    });
    if (!stay) throw notFound('stay of a part');
    if (input.side === 'off' && stay.removedAt === null)
      throw new Refused('CONFLICT', 'It is fitted still: take it off first.', 'side');
    if (input.side === 'on' && input.disposition !== null)
      throw new Refused(
        'BAD_INPUT',
        'What becomes of a part is said of one that came off, not of one that was fitted.',
        'disposition',
      );
    await keepHandling(tx, { ...input, aircraftId: stay.aircraftId, byId: personId });
    return stay.componentId;
  });
}

/** Keeps what is said of one end of a stay, where anything is. */
export async function keepHandling(
  tx: Tx,
  given: HandlePartInput & { aircraftId: string; byId: string },
): Promise<void> {
  const { fittingId, side, itemId, disposition, aircraftId, byId } = given;
  const words = givenText(given.dispositionWords, 'dispositionWords', { most: 300 });
  if (itemId === null && disposition === null) return;
  if (itemId !== null) await refuseOtherWork(tx, itemId, aircraftId);
  if (disposition === 'other' && words.length < 3)
    throw new Refused(
      'BAD_INPUT',
      `By which other method it is kept was not said: needed are at least 3 characters (14 CFR ${partDispositions.other.paragraph}).`,
      'dispositionWords',
    );
  await tx.partHandling.create({
    data: { fittingId, side, itemId, disposition, words, byId },
    select: { id: true },
  });
}

async function refuseOtherWork(tx: Tx, itemId: string, aircraftId: string): Promise<void> {
  const item = await tx.workItem.findUnique({
    where: { id: itemId },
    select: {
      order: {
        select: {
          ...{ number: true, aircraftId: true, aircraft: { select: { registration: true } } },
          ...orderFacts,
        },
      },
    },
  });
  if (!item) throw notFound('item');
  const { order } = item;
  if (order.aircraftId !== aircraftId)
    throw new Refused(
      'BAD_INPUT',
      `That item is of order ${order.number} on ${order.aircraft.registration}: the part is of another aircraft.`,
      'itemId',
    );
  const state = orderState(order);
  if (state === 'planned' || state === 'cancelled')
    throw new Refused(
      'AGAINST_RULE',
      `Order ${order.number} is ${state}: no part went on or came off in its course.`,
      'itemId',
    );
}
