import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { aircraftSize, fitsOn, standSize } from './place.ts';

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

/** The stand an aircraft is to have; refused with the measures where it is too small. */
export async function standWithRoom(
  tx: Tx,
  standId: string,
  aircraft: Awaited<ReturnType<typeof aircraftToMove>>,
) {
  const stand = await tx.stand.findUnique({ where: { id: standId }, select: standSize });
  if (!stand) throw notFound('stand');
  const { clearanceMm } = await tx.shop.findFirstOrThrow({ select: { clearanceMm: true } });
  const fit = fitsOn(aircraft, stand, clearanceMm);
  if (!fit.fits) throw new Refused('AGAINST_RULE', `${fit.sentence}.`, 'standId');
  return stand;
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
