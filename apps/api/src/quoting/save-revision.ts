import type { Tx } from '@fairlead/database';
import type { ComposedRevision } from './compose-revision.ts';

export interface RevisionToSave {
  quoteId: string;
  revision: number;
  draftedById: string;
  draftedAt: Date;
  expiresOn: Date;
  terms: string;
  composed: ComposedRevision;
}

/** Keeps a numbered revision with its lines: two statements, however many lines. */
export async function saveRevision(
  tx: Tx,
  { composed, ...revision }: RevisionToSave,
): Promise<void> {
  const { id: revisionId } = await tx.quoteRevision.create({
    data: { ...revision, ...composed.figures },
    select: { id: true },
  });
  await tx.quoteLine.createMany({ data: composed.lines.map((line) => ({ ...line, revisionId })) });
}
