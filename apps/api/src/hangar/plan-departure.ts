import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayMinute } from '../given.ts';
import { refuseUnseen } from './floor-version.ts';
import { aircraftToMove, standsNow } from './stay-for-change.ts';
import { planEndHere, refuseTimes } from './stay-plans.ts';

/** Plans when an aircraft leaves the stand that it is on. Answers with its stay there. */
export async function planDeparture(
  context: Context,
  input: { aircraftId: string; at: Date; seenVersion: string | null },
): Promise<string> {
  await allow(context, 'front_desk', 'inspector', 'manager');
  const { aircraftId, at, seenVersion } = input;
  const now = context.now();
  if (at <= now)
    throw new Refused(
      'BAD_INPUT',
      `A departure at ${sayMinute(at)} was refused: it is ${sayMinute(now)}; needed is a time to come.`,
      'at',
    );
  refuseTimes({ startsAt: now, endsAt: at }, now);
  return context.write(async (tx) => {
    // load
    const aircraft = await aircraftToMove(tx, aircraftId);
    const here = await standsNow(tx, aircraft.id);
    // decide
    await refuseUnseen(tx, aircraft, seenVersion);
    if (!here)
      throw new Refused(
        'CONFLICT',
        `${aircraft.registration} cannot be planned to leave: it is on no stand of this shop.`,
        'aircraftId',
      );
    // save
    await planEndHere(tx, aircraft.id, here, { at, now });
    return here.id;
  });
}
