import type { LeakCheckKind, LeakFluid, LeakSeen } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenQuantity, givenText } from '../given.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { visitForChange } from './visit-for-change.ts';

export interface RecordLeakCheckInput extends GivenEvent {
  orderId: string;
  kind: LeakCheckKind;
  seen: LeakSeen;
  fluid: LeakFluid | null;
  /** Across the stain, inches. */
  stainInches: string | null;
  words: string;
  findingId: string | null;
}

/** Records a look for leaks: by whom, when, and what was seen. Whatever was seen is recorded; the release reads it. */
export async function recordLeakCheck(
  context: Context,
  input: RecordLeakCheckInput,
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const { orderId, kind, findingId } = input;
  const given = {
    ...givenSight(input),
    words: givenText(input.words, 'words', { most: 500 }),
    ...givenEvent(input, context),
  };
  return context.write(async (tx) => {
    // load
    const order = await visitForChange(tx, orderId);
    const known = await tx.leakCheck.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { id: true, byId: true },
    });
    const finding = findingId
      ? await tx.finding.findUnique({ where: { id: findingId }, select: { orderId: true } })
      : null;
    // decide
    if (sentBefore(known, personId)) return known.id;
    if (findingId && !finding) throw notFound('finding');
    if (finding && finding.orderId !== orderId)
      throw new Refused(
        'BAD_INPUT',
        `The finding is of another order than ${order.number}: needed is one of that order, or none.`,
        'findingId',
      );
    // save
    const { id } = await tx.leakCheck.create({
      data: { orderId, kind, findingId, byId: personId, ...given },
      select: { id: true },
    });
    return id;
  });
}

/** What was seen, with just what belongs to it. */
function givenSight({ seen, fluid, stainInches, findingId }: RecordLeakCheckInput) {
  if (seen === 'dry') {
    if (fluid || stainInches || findingId)
      throw new Refused(
        'BAD_INPUT',
        'A look that was dry was given with a fluid, a stain or a finding: needed is none of them.',
        'seen',
      );
    return { seen, fluid: null, stainInches: null };
  }
  if (!fluid) throw new Refused('BAD_INPUT', 'No fluid was given: needed is what leaked.', 'fluid');
  if (seen === 'running_leak') {
    if (stainInches)
      throw new Refused(
        'BAD_INPUT',
        'A running leak was given with the size of a stain: needed is one or the other.',
        'stainInches',
      );
    return { seen, fluid, stainInches: null };
  }
  if (!stainInches)
    throw new Refused(
      'BAD_INPUT',
      'A stain was given without its size: needed is how far across it is, in inches.',
      'stainInches',
    );
  return {
    seen,
    fluid,
    stainInches: givenQuantity(stainInches, 'stainInches', { most: 200, decimals: 2 }),
  };
}
