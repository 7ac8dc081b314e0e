import type { Tx } from '@fairlead/database';
import type { DirectiveLine } from './directives-of.ts';

interface End {
  at: Date;
  today: Date;
  personId: string;
}

/** What was bound falls due no more; where it had ended already, nothing happens. */
export async function endUndone(tx: Tx, itemId: string, method: string, end: End): Promise<void> {
  const over = await tx.dueEvent.findFirst({
    where: { itemId, kind: { not: 'complied' } },
    select: { id: true },
  });
  if (over) return;
  await tx.dueEvent.create({
    data: {
      ...{ itemId, kind: 'ended', method: method.slice(0, 500), doneOn: end.today },
      ...{ at: end.at, byId: end.personId },
    },
    select: { id: true },
  });
}

/** A directive that is decided on here ends what the one before it had asked of the same aircraft or part. */
export async function endSuperseded(
  tx: Tx,
  { directive, part }: DirectiveLine,
  aircraftId: string,
  end: End,
): Promise<void> {
  const items = await tx.dueItem.findMany({
    where: {
      directiveId: directive.supersedesId,
      ...(part ? { componentId: part.id } : { aircraftId, componentId: null }),
    },
    select: { id: true },
  });
  const words = `Superseded by ${directive.number}${directive.revision && `, revision ${directive.revision}`}`;
  for (const { id } of items) await endUndone(tx, id, words, end);
}
