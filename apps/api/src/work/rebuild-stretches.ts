import type { Tx } from '@fairlead/database';
import { corrected, stretchesOf } from './stretches.ts';

/**
 * Holds a person's clock to the end of the transaction, so that their stretches are rebuilt by one at a time.
 * Refuses nothing: who may clock was asked before.
 */
export async function holdClock(tx: Tx, personId: string): Promise<void> {
  // Rows that refer to the person may still be written meanwhile, so not FOR UPDATE.
  await tx.$queryRaw`SELECT id FROM person WHERE shop_id = current_shop() AND id = ${personId}::uuid FOR NO KEY UPDATE`;
}

/** Holds the clocks of all who worked on an order, always in the same order. */
export async function holdClocksOf(tx: Tx, orderId: string): Promise<void> {
  await tx.$queryRaw`SELECT id FROM person WHERE shop_id = current_shop() AND id IN (
    SELECT s.person_id FROM stretch s JOIN work_item i ON i.shop_id = s.shop_id AND i.id = s.item_id
    WHERE i.shop_id = current_shop() AND i.order_id = ${orderId}::uuid) ORDER BY id FOR NO KEY UPDATE`;
}

/**
 * Makes a person's stretches anew from `from` on; what lies wholly before it stays. The caller holds the clock.
 *
 * Nothing before `from` has changed, so what ran at that instant is what the stretches say that ran.
 */
export async function rebuildStretches(tx: Tx, personId: string, from: Date): Promise<void> {
  const across = await tx.stretch.findFirst({
    where: {
      personId,
      startedAt: { lt: from },
      OR: [{ endedAt: null }, { endedAt: { gte: from } }],
    },
    orderBy: { startedAt: 'desc' },
    select: { itemId: true, startedAt: true, supervisedById: true },
  });
  const corrections = await tx.clockEvent.findMany({
    where: { personId, kind: 'correction' },
    orderBy: { id: 'asc' },
    select: { correctsId: true, at: true, supervisedById: true, supervisionChanged: true },
  });
  const known = corrections.flatMap(({ correctsId, at, supervisedById, supervisionChanged }) =>
    correctsId ? [{ correctsId, at, ...(supervisionChanged && { supervisedById }) }] : [],
  );
  const events = await tx.clockEvent.findMany({
    where: {
      personId,
      kind: { not: 'correction' },
      OR: [{ at: { gte: from } }, { id: { in: known.map(({ correctsId }) => correctsId) } }],
    },
    select: {
      id: true,
      clientEventId: true,
      kind: true,
      itemId: true,
      at: true,
      supervisedById: true,
    },
  });
  const counted = corrected(events, known).flatMap((event) =>
    event.kind !== 'correction' && event.at >= from ? [{ ...event, kind: event.kind }] : [],
  );

  await tx.stretch.deleteMany({
    where: { personId, startedAt: { gte: across?.startedAt ?? from } },
  });
  const made = stretchesOf(counted, across);
  await tx.stretch.createMany({ data: made.map((stretch) => ({ ...stretch, personId })) });
}
