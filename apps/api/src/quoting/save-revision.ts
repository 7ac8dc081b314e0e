import type { Tx } from '@fairlead/database';
import { keepPromise, type MadePromise } from '../hangar/index.ts';
import { keptModelId, type ShopModel } from '../hindsight/index.ts';
import type { ComposedRevision } from './compose-revision.ts';
import { HOURS_SEED } from './foretell-work.ts';

export interface RevisionToSave {
  quoteId: string;
  revision: number;
  draftedById: string;
  draftedAt: Date;
  expiresOn: Date;
  terms: string;
  composed: ComposedRevision;
  /** What its hours come from. */
  model: ShopModel;
  /** When the aircraft would be ready. */
  promise: MadePromise;
}

/** Keeps a numbered revision with its lines and the model that made its hours, in a few statements, however many lines. */
export async function saveRevision(
  tx: Tx,
  { composed, model, promise, ...revision }: RevisionToSave,
): Promise<void> {
  const { id: revisionId } = await tx.quoteRevision.create({
    data: {
      ...revision,
      ...composed.figures,
      hoursModelId: await keptModelId(tx, model, revision.draftedAt),
      hoursSeed: HOURS_SEED,
    },
    select: { id: true },
  });
  await tx.quoteLine.createMany({ data: composed.lines.map((line) => ({ ...line, revisionId })) });
  await keepPromise(tx, { revisionId }, promise, revision.draftedAt);
}
