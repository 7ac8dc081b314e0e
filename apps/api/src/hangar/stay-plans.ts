import type { Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { sayDay, sayMinute } from '../given.ts';

const DAY = 86_400_000;
const most = { ahead: 730 * DAY, behind: 31 * DAY, long: 366 * DAY };

export interface Times {
  startsAt: Date;
  endsAt: Date;
}

/** Refuses times that are no plan: backwards, too long, or too far from today. */
export function refuseTimes({ startsAt, endsAt }: Times, now: Date): void {
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

/** A stay in fact, as far as its plan is concerned. */
export interface StayHere {
  standId: string;
  startsAt: Date;
  orderId: string | null;
}

/** The plans that an aircraft on its stand is carrying out; `staysInView` reads its planned end from the same rows. */
const plansOf = (aircraftId: string, { standId, startsAt }: StayHere, now: Date) => ({
  kind: 'planned' as const,
  aircraftId,
  standId,
  startsAt: { lte: now },
  endsAt: { gt: startsAt },
});

/** When the aircraft is planned to leave the stand it is on; null where nobody has said. */
export async function plannedEndHere(
  tx: Tx,
  aircraftId: string,
  here: StayHere,
  now: Date,
): Promise<Date | null> {
  const plan = await tx.stay.findFirst({
    where: plansOf(aircraftId, here, now),
    orderBy: { endsAt: 'desc' },
    select: { endsAt: true },
  });
  return plan?.endsAt ?? null;
}

/** Plans when the aircraft leaves the stand it is on: changes the plan for it, or makes one. */
export async function planEndHere(
  tx: Tx,
  aircraftId: string,
  here: StayHere,
  { at, now }: { at: Date; now: Date },
): Promise<void> {
  const { count } = await tx.stay.updateMany({
    where: plansOf(aircraftId, here, now),
    data: { endsAt: at },
  });
  if (count > 0) return;
  await tx.stay.create({
    data: {
      kind: 'planned',
      aircraftId,
      standId: here.standId,
      orderId: here.orderId,
      startsAt: here.startsAt,
      endsAt: at,
    },
    select: { id: true },
  });
}

/**
 * Closes the plan for a stand that the aircraft leaves now: without this the plan would say that it should still
 * come there.
 */
export async function closePlanHere(tx: Tx, aircraftId: string, here: StayHere, now: Date) {
  await tx.stay.updateMany({
    where: { ...plansOf(aircraftId, here, now), endsAt: { gt: now } },
    data: { endsAt: now },
  });
}
