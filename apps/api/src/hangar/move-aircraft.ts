import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { refuseUnseen } from './floor-version.ts';
import { shortName } from './place.ts';
import {
  aircraftToMove,
  orderUnderWay,
  refuseTaken,
  standsNow,
  standToMoveTo,
} from './stay-for-change.ts';
import { closePlanHere, planEndHere, plannedEndHere } from './stay-plans.ts';

export interface MoveAircraftInput {
  aircraftId: string;
  standId: string;
  /** The plan that this carries out, on whichever stand it was. */
  planId?: string | null;
  /** Of the drawing that it was decided on; null: not asked. */
  seenVersion?: string | null;
}

/** Puts an aircraft on a stand, now: from another stand, or from outside. Answers with its stay there. */
export async function moveAircraft(context: Context, input: MoveAircraftInput): Promise<string> {
  await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const { aircraftId, standId, planId = null, seenVersion = null } = input;
  const now = context.now();
  return context.write(async (tx) => {
    // load
    const aircraft = await aircraftToMove(tx, aircraftId);
    const from = await standsNow(tx, aircraft.id);
    if (from?.standId === standId) return from.id;
    await refuseUnseen(tx, aircraft, seenVersion);
    const stand = await standToMoveTo(tx, standId, aircraft, { inside: from !== null });
    // decide
    await refuseTaken(tx, stand, aircraft);
    const plan = await planToCarryOut(tx, input, now);
    if (planId && !plan)
      throw new Refused(
        'CONFLICT',
        `${aircraft.registration} cannot be put on stand ${shortName(stand.name)} for a plan that has ended.`,
        'planId',
      );
    const orderId = plan?.orderId ?? from?.orderId ?? (await orderUnderWay(tx, aircraft.id));
    // save
    const here = { standId, startsAt: now, orderId };
    if (from) {
      const end = await plannedEndHere(tx, aircraft.id, from, now);
      await closePlanHere(tx, aircraft.id, from, now);
      await tx.stay.update({
        where: { id: from.id },
        data: { endsAt: now > from.startsAt ? now : from.startsAt },
        select: { id: true },
      });
      // Another stand does not change when it leaves.
      if (!plan && end && end > now) await planEndHere(tx, aircraft.id, here, { at: end, now });
    }
    if (plan)
      await tx.stay.update({
        where: { id: plan.id },
        data: { standId, startsAt: plan.startsAt < now ? plan.startsAt : now },
        select: { id: true },
      });
    const { id } = await tx.stay.create({
      data: { kind: 'actual', aircraftId: aircraft.id, ...here },
      select: { id: true },
    });
    return id;
  });
}

/** An aircraft that comes within a day of its plan comes for it, unless said otherwise. */
const EARLY_MS = 86_400_000;

/** The plan that is named, or the aircraft's own for that stand where it comes about when it was to. */
async function planToCarryOut(
  tx: Tx,
  { aircraftId, standId, planId }: MoveAircraftInput,
  now: Date,
) {
  const plan = await tx.stay.findFirst({
    where: {
      kind: 'planned',
      aircraftId,
      ...(planId
        ? { id: planId }
        : {
            standId,
            startsAt: { lt: new Date(now.getTime() + EARLY_MS) },
            endsAt: { gt: now },
          }),
    },
    orderBy: { startsAt: 'asc' },
    select: { id: true, startsAt: true, endsAt: true, orderId: true },
  });
  if (planId && !plan) throw notFound('plan of this aircraft');
  return plan?.endsAt && plan.endsAt > now ? plan : null;
}
