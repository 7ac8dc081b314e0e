import type { Tx } from '@fairlead/database';
import type { WorkToBill } from './work-to-bill.ts';

/** The aircraft's payer; else whoever was given the quote for the visit; else its owner. Null: nobody. */
export async function whoPays(
  tx: Tx,
  { aircraft, quotes }: WorkToBill,
  day: Date,
  /** When it was sold mid-work: who was given a quote before is not the owner of now. */
  soldAt: Date | null = null,
): Promise<string | null> {
  const standing = await tx.aircraftContact.findMany({
    where: {
      aircraftId: aircraft.id,
      since: { lte: day },
      OR: [{ until: null }, { until: { gte: day } }],
    },
    orderBy: { since: 'desc' },
    select: { contactId: true, capacity: true },
  });
  const as = (capacity: 'payer' | 'owner') =>
    standing.find((contact) => contact.capacity === capacity)?.contactId;
  const quoted = (quotes.find(({ findingId, more }) => findingId === null && !more) ?? quotes[0])
    ?.contactId;
  return as('payer') ?? (soldAt === null ? quoted : null) ?? as('owner') ?? null;
}
