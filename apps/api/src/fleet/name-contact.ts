import type { Capacity } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';

export interface NameContactInput {
  aircraftId: string;
  contactId: string;
  capacity: Capacity;
  /** How far they may authorise work, net, minor units; 0: not at all; null: no limit was given. */
  mayAuthorise: bigint | null;
}

/** Says what somebody is to an aircraft, and how far their yes goes, from today on. Said again it counts anew. */
export async function nameContact(context: Context, input: NameContactInput): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const { aircraftId, contactId, capacity, mayAuthorise } = input;
  if (mayAuthorise !== null && mayAuthorise < 0n)
    throw new Refused(
      'BAD_INPUT',
      `mayAuthorise is ${mayAuthorise}: needed is 0 or more, or nothing where no limit was given.`,
      'mayAuthorise',
    );
  const today = await shopToday(context);
  return context.write(async (tx) => {
    await holdFor(tx, 'standing', aircraftId);
    if (!(await tx.aircraft.findUnique({ where: { id: aircraftId }, select: { id: true } })))
      throw notFound('aircraft');
    if (!(await tx.contact.findUnique({ where: { id: contactId }, select: { id: true } })))
      throw notFound('contact');
    const before = await tx.aircraftContact.findFirst({
      where: { aircraftId, contactId, capacity },
      select: { id: true, until: true },
    });
    if (!before) {
      await tx.aircraftContact.create({
        data: { aircraftId, contactId, capacity, mayAuthoriseMinor: mayAuthorise, since: today },
        select: { id: true },
      });
      return aircraftId;
    }
    await tx.aircraftContact.update({
      where: { id: before.id },
      data: {
        mayAuthoriseMinor: mayAuthorise,
        // Somebody who was gone is there again from today; what was before is in the audit.
        ...(before.until !== null && { until: null, since: today }),
      },
      select: { id: true },
    });
    return aircraftId;
  });
}

/** Ends what somebody is to an aircraft, with today: what they agreed to stays agreed. */
export async function endStanding(
  context: Context,
  { aircraftId, contactId, capacity }: Omit<NameContactInput, 'mayAuthorise'>,
): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const today = await shopToday(context);
  return context.write(async (tx) => {
    await holdFor(tx, 'standing', aircraftId);
    const standing = await tx.aircraftContact.findFirst({
      where: { aircraftId, contactId, capacity },
      select: { id: true, until: true, contact: { select: { name: true } } },
    });
    if (!standing) throw notFound('contact of this aircraft');
    if (standing.until !== null)
      throw new Refused(
        'CONFLICT',
        `${standing.contact.name} has not been its ${capacity} since ${sayDay(standing.until)}.`,
        'contactId',
      );
    await tx.aircraftContact.update({
      where: { id: standing.id },
      data: { until: today },
      select: { id: true },
    });
    return aircraftId;
  });
}
