import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay, sayMinute } from '../given.ts';
import { aircraftToMove, standWithRoom } from './stay-for-change.ts';

export interface PlanStayInput {
  standId: string;
  aircraftId: string;
  orderId: string | null;
  startsAt: Date;
  endsAt: Date;
}

const DAY = 86_400_000;
const most = { ahead: 730 * DAY, behind: 31 * DAY, long: 366 * DAY };

/** Plans an aircraft on a stand. It must fit; that another is planned there is allowed, and shown as a conflict. */
export async function planStay(context: Context, input: PlanStayInput): Promise<string> {
  await allow(context, 'front_desk', 'inspector', 'manager');
  const { standId, aircraftId, orderId, startsAt, endsAt } = input;
  refuseTimes(input, context.now());
  return context.write(async (tx) => {
    // load
    const aircraft = await aircraftToMove(tx, aircraftId);
    const stand = await standWithRoom(tx, standId, aircraft);
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
    // save
    const { id } = await tx.stay.create({
      data: { kind: 'planned', standId: stand.id, aircraftId, orderId, startsAt, endsAt },
      select: { id: true },
    });
    return id;
  });
}

function refuseTimes({ startsAt, endsAt }: PlanStayInput, now: Date): void {
  if (endsAt <= startsAt)
    throw new Refused(
      'BAD_INPUT',
      `A stay from ${sayMinute(startsAt)} to ${sayMinute(endsAt)} was refused: needed is an end after the beginning.`,
      'endsAt',
    );
  if (endsAt.getTime() - startsAt.getTime() > most.long)
    throw new Refused(
      'BAD_INPUT',
      `A stay from ${sayDay(startsAt)} to ${sayDay(endsAt)} was refused: at most 366 days are planned at once.`,
      'endsAt',
    );
  if (
    startsAt.getTime() < now.getTime() - most.behind ||
    startsAt.getTime() > now.getTime() + most.ahead
  )
    throw new Refused(
      'BAD_INPUT',
      `A stay from ${sayDay(startsAt)} was refused: needed is a beginning within the last 31 days or the next two years; today is ${sayDay(now)}.`,
      'startsAt',
    );
}
