import type { Prisma, Tx } from '@fairlead/database';
import type { MadePromise } from './make-promise.ts';
import { promiseForOrder } from './promise-for-order.ts';

/** Keeps what was promised, with what it was computed from: never changed, so that it can be held against the day of release. */
export async function keepPromise(
  tx: Tx,
  of: { revisionId: string } | { orderId: string },
  { basis, ...promise }: MadePromise,
  madeAt: Date,
): Promise<void> {
  await tx.returnPromise.create({
    data: {
      ...of,
      ...promise,
      madeAt,
      basis: structuredClone(basis) as unknown as Prisma.InputJsonValue,
    },
    select: { id: true },
  });
}

/** Keeps what is promised for an order now: asked when its aircraft arrives, since from then on nobody waits for it. */
export async function keepOrderPromise(tx: Tx, orderId: string, now: Date): Promise<void> {
  const promise = await promiseForOrder(tx, orderId, now);
  if (promise) await keepPromise(tx, { orderId }, promise, now);
}
