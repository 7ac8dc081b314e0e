import type { LeakCheckKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayMinute } from '../given.ts';
import { keepStandUntil } from '../hangar/index.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { visitForChange } from './visit-for-change.ts';

export interface AppointLookInput extends GivenEvent {
  orderId: string;
  kind: LeakCheckKind;
  plannedFor: Date;
}

const MOST_AHEAD_MS = 31 * 86_400_000;

/**
 * Appoints a look for leaks: "07:00 tomorrow". The aircraft keeps its stand until then, whatever was planned; nobody's
 * hands are taken by it.
 */
export async function appointLook(context: Context, input: AppointLookInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const { orderId, kind, plannedFor } = input;
  const given = givenEvent(input, context);
  const now = context.now();
  if (plannedFor <= given.at || plannedFor.getTime() > now.getTime() + MOST_AHEAD_MS)
    throw new Refused(
      'BAD_INPUT',
      `A look at ${sayMinute(plannedFor)} was refused: it is ${sayMinute(now)}; needed is a time of the next 31 days.`,
      'plannedFor',
    );
  return context.write(async (tx) => {
    // load
    const order = await visitForChange(tx, orderId);
    const known = await tx.leakCheck.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { id: true, byId: true },
    });
    // decide
    if (sentBefore(known, personId)) return known.id;
    // save
    const { id } = await tx.leakCheck.create({
      data: { orderId, kind, plannedFor, byId: personId, ...given },
      select: { id: true },
    });
    await keepStandUntil(tx, order.aircraftId, plannedFor, now);
    return id;
  });
}
