import type { Tx } from '@fairlead/database';
import type { AccessPriors } from '@fairlead/labour';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText, sayMinute } from '../given.ts';
import { holdFor } from '../hold.ts';
import { changesBetween, type GivenStep, OWN_TABLE, tableFrom } from './access-table.ts';
import { askRefit } from './refit-hours.ts';

export interface SaveAccessPriorsInput {
  /** The revision that was read; 0 is the program's own table. */
  readRevision: number;
  steps: readonly GivenStep[];
  reason: string;
}

/** A table of access priors as it was saved. */
export const savedTable = (tx: Pick<Tx, 'hoursPriors'>) =>
  tx.hoursPriors.findFirst({
    orderBy: { revision: 'desc' },
    include: { savedBy: { select: { name: true } } },
  });

/** Saves what the manager believes a place costs, as a new revision, and has the model learn from it at once. */
export async function saveAccessPriors(
  context: Context,
  input: SaveAccessPriorsInput,
): Promise<void> {
  const { personId } = await allow(context, 'manager');
  const note = givenText(input.reason, 'reason', { least: 3, most: 2000 });
  await context.write(async (tx) => {
    // load
    await holdFor(tx, 'hours priors', '');
    const newest = await savedTable(tx);
    const inForce = newest ? (newest.access as unknown as AccessPriors) : OWN_TABLE;
    // decide
    const revision = newest?.revision ?? 0;
    if (revision !== input.readRevision)
      throw new Refused(
        'CONFLICT',
        newest && input.readRevision < revision
          ? `Revision ${revision} was saved by ${newest.savedBy.name} on ${sayMinute(newest.savedAt)}, after you opened the table (you read revision ${input.readRevision}). Nothing of yours is saved: look at what changed, then save again.`
          : `You read revision ${input.readRevision}, and the newest is ${revision}: read the table again.`,
        'readRevision',
      );
    const access = tableFrom(input.steps, inForce);
    if (changesBetween(inForce, access).length === 0)
      throw new Refused(
        'BAD_INPUT',
        `Nothing was changed: every factor is as in ${revision === 0 ? 'the program’s own table' : `revision ${revision}`}.`,
        'steps',
      );
    // save
    await tx.hoursPriors.create({
      data: {
        access: structuredClone(access) as object,
        note,
        savedAt: context.now(),
        savedById: personId,
      },
      select: { id: true },
    });
    await askRefit(tx, context.now(), { atOnce: true });
  });
}
