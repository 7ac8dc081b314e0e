import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { shortName } from './place.ts';
import { aircraftToMove, orderUnderWay, standsNow, standWithRoom } from './stay-for-change.ts';

/** Puts an aircraft on a stand, now: from another stand, or from outside. Answers with its stay there. */
export async function moveAircraft(
  context: Context,
  { aircraftId, standId }: { aircraftId: string; standId: string },
): Promise<string> {
  await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const now = context.now();
  return context.write(async (tx) => {
    // load
    const aircraft = await aircraftToMove(tx, aircraftId);
    await holdFor(tx, 'stays on stand', standId);
    const from = await standsNow(tx, aircraft.id);
    if (from?.standId === standId) return from.id;
    const stand = await standWithRoom(tx, standId, aircraft);
    const there = await tx.stay.findFirst({
      where: { standId: stand.id, kind: 'actual', endsAt: null },
      select: { aircraft: { select: { registration: true } } },
    });
    // decide
    if (there)
      throw new Refused(
        'CONFLICT',
        `${aircraft.registration} cannot be moved to stand ${shortName(stand.name)}: ${there.aircraft.registration} stands there. Move that one first.`,
        'standId',
      );
    const orderId = from?.orderId ?? (await orderUnderWay(tx, aircraft.id));
    // save
    if (from)
      await tx.stay.update({
        where: { id: from.id },
        data: { endsAt: now > from.startsAt ? now : from.startsAt },
        select: { id: true },
      });
    const { id } = await tx.stay.create({
      data: { kind: 'actual', standId: stand.id, aircraftId: aircraft.id, orderId, startsAt: now },
      select: { id: true },
    });
    return id;
  });
}
