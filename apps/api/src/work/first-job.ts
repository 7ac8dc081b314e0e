import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';

export interface OurCostSaid {
  kind: 'shop' | 'training' | 'rework' | null;
  putsRightId: string | null;
}

/**
 * What rework puts right has to be work that was begun on the same aircraft, and something else than the rework itself; nothing but
 * rework puts anything right.
 *
 * @param itemIds the items that it is said of; none where it is still to be opened
 * @throws Refused
 */
export async function refuseFirstJob(
  tx: Tx,
  { kind, putsRightId }: OurCostSaid,
  { aircraftId, itemIds }: { aircraftId: string; itemIds: readonly string[] },
): Promise<void> {
  if (kind !== 'rework') {
    if (putsRightId !== null)
      throw new Refused(
        'BAD_INPUT',
        `An item that it puts right was given, and it is ${kind === null ? 'to be billed' : kind === 'shop' ? 'for the shop' : 'training'}: only rework puts something right. Leave it out.`,
        'putsRightId',
      );
    return;
  }
  if (putsRightId === null)
    throw new Refused(
      'BAD_INPUT',
      "Rework was said without what it puts right: needed is the item of the aircraft's past work.",
      'putsRightId',
    );
  const first = await tx.workItem.findUnique({
    where: { id: putsRightId },
    select: {
      id: true,
      title: true,
      order: {
        select: { number: true, aircraftId: true, aircraft: { select: { registration: true } } },
      },
      stretches: { take: 1, select: { id: true } },
      events: { where: { kind: 'done' }, take: 1, select: { id: true } },
    },
  });
  if (!first) throw notFound('item that is put right');
  const name = `“${first.title}” of order ${first.order.number}`;
  if (itemIds.includes(first.id))
    throw new Refused(
      'BAD_INPUT',
      `${name} cannot put right itself: name the earlier work.`,
      'putsRightId',
    );
  if (first.order.aircraftId !== aircraftId)
    throw new Refused(
      'AGAINST_RULE',
      `${name} was done on ${first.order.aircraft.registration}: rework puts right earlier work on the same aircraft.`,
      'putsRightId',
    );
  if (first.stretches.length === 0 && first.events.length === 0)
    throw new Refused(
      'AGAINST_RULE',
      `${name} was never begun: there is nothing of it to put right.`,
      'putsRightId',
    );
}
