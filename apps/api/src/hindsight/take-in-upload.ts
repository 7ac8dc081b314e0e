import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { askJob } from './ask-job.ts';
import { standsStill, uploadState } from './upload-state.ts';

/** Why a file on the desk cannot be taken in now, by its state. */
const whyNot = {
  being_read: 'is still being read; wait until it says how many rows are good.',
  refused: 'cannot be taken in as it is: put it away, mend it and choose it again.',
  being_taken_in: 'is being taken in already.',
  taken_in: 'is in already.',
} as const;

/** Has the worker take in the good rows of the file on the desk, all of them or none. */
export async function takeInUpload(context: Context, uploadId: string): Promise<void> {
  const { personId } = await allow(context, 'manager');
  await context.write(async (tx) => {
    // load
    await holdFor(tx, 'history desk', '');
    const upload = await tx.historyUpload.findUnique({
      where: { id: uploadId },
      omit: { content: true, refusedCsv: true },
    });
    if (!upload) throw notFound('file on the desk');

    // decide
    const now = context.now();
    const state = uploadState(upload);
    if (state !== 'read' && !standsStill(upload, now))
      throw new Refused('CONFLICT', `${upload.fileName} ${whyNot[state]}`);
    if (upload.goodRows === 0)
      throw new Refused('BAD_INPUT', `${upload.fileName} has no good row to import.`);

    // save
    await tx.historyUpload.update({
      where: { id: uploadId },
      data: { takingSince: now, movedAt: now, savedRows: 0 },
      select: { id: true },
    });
    await askJob(tx, 'take_in_history', { uploadId, personId });
  });
}
