import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { refuseUnseen } from './floor-version.ts';
import { aircraftToMove, standsNow, standWithRoom } from './stay-for-change.ts';
import { refuseTimes } from './stay-plans.ts';

/** Puts a plan on another stand, or on other days. Answers with the same stay. */
export async function replanStay(
  context: Context,
  input: {
    stayId: string;
    standId: string;
    startsAt: Date;
    endsAt: Date;
    seenVersion: string | null;
  },
): Promise<string> {
  await allow(context, 'front_desk', 'inspector', 'manager');
  const { stayId, standId, startsAt, endsAt, seenVersion } = input;
  const now = context.now();
  refuseTimes(input, now);
  return context.write(async (tx) => {
    // load
    const { plan, aircraft } = await planToChange(tx, stayId, seenVersion);
    const here = await standsNow(tx, aircraft.id);
    await standWithRoom(tx, standId, aircraft);
    // decide
    if (here && here.standId === plan.standId && plan.startsAt <= now && standId !== plan.standId)
      throw new Refused(
        'CONFLICT',
        `${aircraft.registration} stands there already: move it, or plan a move.`,
        'stayId',
      );
    // save
    await tx.stay.update({
      where: { id: plan.id },
      data: { standId, startsAt, endsAt },
      select: { id: true },
    });
    return plan.id;
  });
}

/** Takes a plan off the floor: the aircraft does not come. Answers with the aircraft. */
export async function dropPlan(
  context: Context,
  { stayId, seenVersion }: { stayId: string; seenVersion: string | null },
): Promise<string> {
  await allow(context, 'front_desk', 'inspector', 'manager');
  return context.write(async (tx) => {
    const { plan, aircraft } = await planToChange(tx, stayId, seenVersion);
    await tx.stay.delete({ where: { id: plan.id }, select: { id: true } });
    return aircraft.id;
  });
}

/** A plan and its aircraft, held; refused where it is a fact, or was changed since it was seen. */
async function planToChange(tx: Tx, stayId: string, seenVersion: string | null) {
  const found = await tx.stay.findUnique({ where: { id: stayId }, select: { aircraftId: true } });
  if (!found) throw notFound('stay');
  const aircraft = await aircraftToMove(tx, found.aircraftId);
  await refuseUnseen(tx, aircraft, seenVersion);
  // Read again: it may have been dropped while this waited for the aircraft.
  const plan = await tx.stay.findUnique({
    where: { id: stayId },
    select: { id: true, kind: true, standId: true, startsAt: true },
  });
  if (!plan) throw notFound('stay');
  if (plan.kind === 'actual')
    throw new Refused(
      'AGAINST_RULE',
      `${aircraft.registration} stands there in fact: only a plan is changed; move the aircraft, or let it leave.`,
      'stayId',
    );
  return { plan, aircraft };
}
