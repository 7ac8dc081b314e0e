import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { findingFacts, findingState } from '../states.ts';
import { shopToday } from '../today.ts';
import { text } from './limits.ts';

/** Says that a finding is left for a later visit, and why. Its class stays as it is. */
export async function putOffFinding(
  context: Context,
  input: { findingId: string; reason: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const reason = text(input.reason, 'reason', { least: 3, most: 2000 });
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'finding', input.findingId);
    const finding = await tx.finding.findUnique({
      where: { id: input.findingId },
      select: { id: true, number: true, title: true, ...findingFacts },
    });
    if (!finding) throw notFound('finding');
    // decide
    const state = findingState(finding, today);
    if (state === 'put_off') return finding.id;
    if (state === 'corrected')
      throw new Refused(
        'CONFLICT',
        `Finding ${finding.number}, “${finding.title}”, cannot be put off: it is corrected already.`,
      );
    // save
    await tx.findingEvent.create({
      data: {
        findingId: finding.id,
        kind: 'put_off',
        meaning: reason,
        at: context.now(),
        byId: personId,
      },
    });
    return finding.id;
  });
}
