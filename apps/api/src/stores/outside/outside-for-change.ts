import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../../errors.ts';
import { sayMinute } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { outsideFacts, returnedOf } from './outside-facts.ts';

/** What somebody must know of an outside job before they change what happened to it. Held to the end of the transaction. */
export async function outsideForChange(tx: Tx, jobId: string) {
  await holdFor(tx, 'outside job', jobId);
  const job = await tx.outsideJob.findUnique({
    where: { id: jobId },
    select: {
      ...{ id: true, number: true, itemId: true, vendor: true, what: true },
      ...outsideFacts,
      documents: { select: { sha256: true } },
      bills: { select: { id: true } },
      item: { select: { orderId: true } },
    },
  });
  if (!job) throw notFound('outside job');
  return { ...job, name: `Outside job ${job.number}, “${job.what}”,` };
}

export function refuseReturned(job: Awaited<ReturnType<typeof outsideForChange>>): void {
  const back = returnedOf(job);
  if (back)
    throw new Refused(
      'CONFLICT',
      `${job.name} came back at ${sayMinute(back.at)}: nothing more is expected of it.`,
    );
}
