import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';

/** What a contact may say yes to for an aircraft. */
export interface ContactStanding {
  name: string;
  registration: string;
  /** The most that they may authorise, net, minor units; null: no limit was given. */
  limit: bigint | null;
}

/**
 * Who a contact is to an aircraft on a day. Somebody in two capacities has the wider of both limits.
 *
 * @throws a refusal when the contact has nothing to do with the aircraft on that day
 */
export async function contactStanding(
  read: Tx,
  { aircraftId, contactId, day }: { aircraftId: string; contactId: string; day: Date },
): Promise<ContactStanding> {
  const contact = await read.contact.findUnique({
    where: { id: contactId },
    select: { name: true },
  });
  if (!contact) throw notFound('contact');
  const aircraft = await read.aircraft.findUnique({
    where: { id: aircraftId },
    select: { registration: true },
  });
  if (!aircraft) throw notFound('aircraft');
  const standings = await read.aircraftContact.findMany({
    where: {
      aircraftId,
      contactId,
      since: { lte: day },
      OR: [{ until: null }, { until: { gte: day } }],
    },
    select: { mayAuthoriseMinor: true },
  });
  const { registration } = aircraft;
  if (standings.length === 0)
    throw new Refused(
      'AGAINST_RULE',
      `${contact.name} is not an owner, operator or payer of ${registration} on ${day.toISOString().slice(0, 10)}: needed is one of its contacts.`,
      'contactId',
    );
  const limits = standings.map(({ mayAuthoriseMinor }) => mayAuthoriseMinor);
  const limit = limits.reduce((most, next) =>
    most === null || next === null ? null : next > most ? next : most,
  );
  return { name: contact.name, registration, limit };
}
