import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { holdFor } from '../../hold.ts';
import { clientId, deviceTime } from '../limits.ts';
import { type GivenSighting, keptAnswers } from './given-sighting.ts';

export interface SeeFindingInput {
  findingId: string;
  sighting: GivenSighting;
  seenAt: Date;
  clientEventId: string;
}

/** Adds what somebody sees of a finding, or how a check came out. The same one sent twice is added once. */
export async function seeFinding(context: Context, input: SeeFindingInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const answers = keptAnswers(input.sighting, 'sighting');
  const at = deviceTime(input.seenAt, context.now(), 'seenAt');
  const clientEventId = clientId(input.clientEventId);

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'finding', input.findingId);
    const finding = await tx.finding.findUnique({
      where: { id: input.findingId },
      select: { id: true },
    });
    if (!finding) throw notFound('finding');
    const known = await tx.findingSighting.findFirst({
      where: { clientEventId },
      select: { findingId: true, byId: true },
    });
    // decide
    if (known?.findingId === finding.id && known.byId === personId) return finding.id;
    if (known)
      throw new Refused(
        'CONFLICT',
        'Another sighting has this clientEventId already: needed is a new one.',
        'clientEventId',
      );
    // save
    await tx.findingSighting.create({
      data: {
        findingId: finding.id,
        symptom: input.sighting.symptom,
        answers,
        at,
        byId: personId,
        clientEventId,
      },
    });
    return finding.id;
  });
}
