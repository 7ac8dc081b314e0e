import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { refuseUnseen } from './floor-version.ts';
import { aircraftToMove, standsNow } from './stay-for-change.ts';
import { closePlanHere } from './stay-plans.ts';

/** A second press of the same button is no second departure. */
const DOUBLE_MS = 60_000;

/**
 * Takes an aircraft off its stand, now. It says where the aircraft is, not that it may be flown: what is not
 * released stays so outside as well.
 */
export async function departAircraft(
  context: Context,
  { aircraftId, seenVersion = null }: { aircraftId: string; seenVersion?: string | null },
): Promise<string> {
  await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const now = context.now();
  return context.write(async (tx) => {
    // load
    const aircraft = await aircraftToMove(tx, aircraftId);
    const stay = await standsNow(tx, aircraft.id);
    // decide
    if (!stay) {
      const last = await tx.stay.findFirst({
        where: { aircraftId, kind: 'actual' },
        orderBy: [{ startsAt: 'desc' }, { id: 'desc' }],
        select: { id: true, endsAt: true },
      });
      if (last?.endsAt && now.getTime() - last.endsAt.getTime() < DOUBLE_MS) return last.id;
      await refuseUnseen(tx, aircraft, seenVersion);
      throw new Refused(
        'CONFLICT',
        `${aircraft.registration} cannot leave: it is on no stand of this shop.`,
        'aircraftId',
      );
    }
    await refuseUnseen(tx, aircraft, seenVersion);
    // save
    await closePlanHere(tx, aircraft.id, stay, now);
    await tx.stay.update({
      where: { id: stay.id },
      data: { endsAt: now > stay.startsAt ? now : stay.startsAt },
      select: { id: true },
    });
    return stay.id;
  });
}
