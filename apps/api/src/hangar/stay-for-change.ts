import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { aircraftSize, fitsOn, getsInto, hangarSize, shortName, standSize } from './place.ts';

/** An aircraft, held to the end of the transaction so that it is not moved twice at once. */
export async function aircraftToMove(tx: Tx, aircraftId: string) {
  await holdFor(tx, 'stays of aircraft', aircraftId);
  const aircraft = await tx.aircraft.findUnique({
    where: { id: aircraftId },
    select: { id: true, ...aircraftSize },
  });
  if (!aircraft) throw notFound('aircraft');
  return aircraft;
}

type Aircraft = Awaited<ReturnType<typeof aircraftToMove>>;

/**
 * The stand an aircraft is to have; refused with the measures where it is too small, or where the aircraft does not
 * get into the building. One that stands `inside` has passed the door.
 */
export async function standWithRoom(
  tx: Tx,
  standId: string,
  aircraft: Aircraft,
  { inside = false }: { inside?: boolean } = {},
) {
  const stand = await tx.stand.findUnique({
    where: { id: standId },
    select: { ...standSize, hangar: { select: hangarSize } },
  });
  if (!stand) throw notFound('stand');
  const { clearanceMm } = await tx.shop.findFirstOrThrow({ select: { clearanceMm: true } });
  const entry = inside ? { fits: true as const } : getsInto(aircraft, stand.hangar);
  const fit = entry.fits ? fitsOn(aircraft, stand, clearanceMm) : entry;
  if (!fit.fits) throw new Refused('AGAINST_RULE', `${fit.sentence}.`, 'standId');
  return stand;
}

/** The same, held: two aircraft that are put on one stand at once come one after the other. */
export async function standToMoveTo(
  tx: Tx,
  standId: string,
  aircraft: Aircraft,
  where: { inside: boolean },
) {
  await holdFor(tx, 'stays on stand', standId);
  return standWithRoom(tx, standId, aircraft, where);
}

export async function refuseTaken(
  tx: Tx,
  stand: { id: string; name: string },
  { registration }: Aircraft,
): Promise<void> {
  const there = await tx.stay.findFirst({
    where: { standId: stand.id, kind: 'actual', endsAt: null },
    select: { aircraft: { select: { registration: true } } },
  });
  if (there)
    throw new Refused(
      'CONFLICT',
      `${registration} cannot be moved to stand ${shortName(stand.name)}: ${there.aircraft.registration} stands there. Move that one first.`,
      'standId',
    );
}

/** Where an aircraft stands now; null where it is on no stand. */
export const standsNow = (tx: Tx, aircraftId: string) =>
  tx.stay.findFirst({
    where: { aircraftId, kind: 'actual', endsAt: null },
    select: {
      id: true,
      standId: true,
      startsAt: true,
      orderId: true,
      stand: { select: { name: true } },
    },
  });

/** The order that the aircraft is here for, where there is one. */
export async function orderUnderWay(tx: Tx, aircraftId: string): Promise<string | null> {
  const order = await tx.workOrder.findFirst({
    where: {
      aircraftId,
      AND: [
        { events: { some: { kind: 'arrived' } } },
        { events: { none: { kind: { in: ['closed', 'cancelled'] } } } },
      ],
    },
    orderBy: { number: 'desc' },
    select: { id: true },
  });
  return order?.id ?? null;
}
