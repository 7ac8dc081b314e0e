import type { Tx } from '@fairlead/database';
import { refuseBilledToSeller } from '../billed-to-seller.ts';

/**
 * Refuses another time for a clock where it would change hours that a seller was billed for. What a clock sends is never refused,
 * however late: only saying that it was otherwise is.
 *
 * @param one and other the time as it counts and the better one: what lies between changes hands
 */
export async function refuseBilledHours(
  tx: Tx,
  personId: string,
  one: Date,
  other: Date,
): Promise<void> {
  if (one.getTime() === other.getTime()) return;
  const [from, to] = one < other ? [one, other] : [other, one];
  const touched = await tx.stretch.findMany({
    where: {
      personId,
      startedAt: { lte: to },
      OR: [{ endedAt: null }, { endedAt: { gte: from } }],
      item: { order: { sales: { some: { sale: { cutAt: { gt: from } } } } } },
    },
    distinct: ['itemId'],
    orderBy: { startedAt: 'asc' },
    select: { item: { select: { orderId: true } } },
  });
  for (const orderId of new Set(touched.map(({ item }) => item.orderId)))
    await refuseBilledToSeller(tx, orderId, [from], 'Another time for that clock');
}
