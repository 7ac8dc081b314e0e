import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { refuseUnseen } from './floor-version.ts';
import { aircraftToMove, standsNow, standWithRoom } from './stay-for-change.ts';
import { planEndHere, plannedEndHere, refuseTimes } from './stay-plans.ts';

export interface PlanStayInput {
  standId: string;
  aircraftId: string;
  orderId: string | null;
  startsAt: Date;
  endsAt: Date;
  /** Of the drawing that it was decided on; null: not asked. */
  seenVersion?: string | null;
}

/**
 * Plans an aircraft on a stand. It must fit; that another is planned there is allowed, and shown as a conflict. One
 * that will still be on another stand then is planned to leave that one: a move.
 */
export async function planStay(context: Context, input: PlanStayInput): Promise<string> {
  await allow(context, 'front_desk', 'inspector', 'manager');
  const { standId, aircraftId, orderId, startsAt, endsAt, seenVersion = null } = input;
  const now = context.now();
  refuseTimes(input, now);
  return context.write(async (tx) => {
    // load
    const aircraft = await aircraftToMove(tx, aircraftId);
    const stand = await standWithRoom(tx, standId, aircraft);
    const here = await standsNow(tx, aircraft.id);
    const order = orderId
      ? await tx.workOrder.findUnique({
          where: { id: orderId },
          select: { aircraftId: true, number: true },
        })
      : null;
    if (orderId && !order) throw notFound('order');
    // decide
    if (order && order.aircraftId !== aircraft.id)
      throw new Refused(
        'BAD_INPUT',
        `Order ${order.number} is for another aircraft than ${aircraft.registration}.`,
        'orderId',
      );
    const same = await tx.stay.findFirst({
      where: { kind: 'planned', standId: stand.id, aircraftId, startsAt, endsAt },
      select: { id: true },
    });
    if (same) return same.id;
    await refuseUnseen(tx, aircraft, seenVersion);
    // save
    if (here && here.standId !== stand.id && startsAt > now) {
      const leaves = await plannedEndHere(tx, aircraftId, here, now);
      if (leaves === null || leaves > startsAt)
        await planEndHere(tx, aircraftId, here, { at: startsAt, now });
    }
    const { id } = await tx.stay.create({
      data: { kind: 'planned', standId: stand.id, aircraftId, orderId, startsAt, endsAt },
      select: { id: true },
    });
    return id;
  });
}
