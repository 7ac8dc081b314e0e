import type { PartRelationKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenKey, givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { standInsOf } from './stand-ins.ts';

export interface RelatePartsInput {
  partId: string;
  insteadId: string;
  kind: PartRelationKind;
  source: string;
  clientEventId: string | null;
}

/**
 * Says what may stand in for a part, or that it may no longer. One direction: that B stands in for A says nothing of A for B,
 * and nothing may lead back to where it began. Which parts interchange is a technical judgement, so it is an inspector's or the manager's.
 */
export async function relateParts(context: Context, input: RelatePartsInput): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'manager');
  const key = givenKey(input.clientEventId);
  const source = givenText(input.source, 'source', { least: 3, most: 200 });
  const { partId, insteadId, kind } = input;
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'part_relation', 'all');
    if (key && (await tx.partRelation.findUnique({ where: { id: key }, select: { id: true } })))
      return partId;
    const parts = await tx.part.findMany({
      where: { id: { in: [partId, insteadId] } },
      select: { id: true, number: true },
    });
    const [part, instead] = [partId, insteadId].map((id) => parts.find((each) => each.id === id));
    if (!part || !instead) throw notFound('part');
    const newest = await tx.partRelation.findFirst({
      where: { partId, insteadId },
      orderBy: [{ at: 'desc' }, { id: 'desc' }],
      select: { kind: true },
    });
    const holds = newest !== null && newest.kind !== 'withdrawn';
    const back = await standInsOf(tx, insteadId);
    // decide
    if (kind === 'withdrawn' && !holds)
      throw new Refused(
        'AGAINST_RULE',
        `${instead.number} does not stand in for ${part.number}: there is nothing to withdraw.`,
        'kind',
      );
    if (kind !== 'withdrawn' && newest?.kind === kind)
      throw new Refused(
        'CONFLICT',
        `${instead.number} stands in for ${part.number} as ${kind === 'superseded' ? 'the number that supersedes it' : 'an alternate'} already.`,
        'insteadId',
      );
    if (
      kind !== 'withdrawn' &&
      (part.id === instead.id || back.some((each) => each.partId === part.id))
    )
      throw new Refused(
        'AGAINST_RULE',
        part.id === instead.id
          ? `${part.number} cannot stand in for itself: name another part.`
          : `${instead.number} cannot stand in for ${part.number}: ${part.number} stands in for ${instead.number}, and the two would lead round in a circle. Withdraw that first.`,
        'insteadId',
      );
    // save
    await tx.partRelation.create({
      data: {
        ...(key && { id: key }),
        partId,
        insteadId,
        kind,
        source,
        at: context.now(),
        byId: personId,
      },
      select: { id: true },
    });
    return partId;
  });
}
