import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { findingFacts, findingState } from '../states.ts';
import { shopToday } from '../today.ts';
import { text } from './limits.ts';

/** Says of a finding that was put off or declined that it was put right on a later visit, or needs nothing any more. */
export async function settleFinding(
  context: Context,
  input: { findingId: string; words: string },
): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'manager');
  const meaning = text(input.words, 'words', { least: 3, most: 2000 });
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
    if (finding.events.at(-1)?.kind === 'settled') return finding.id;
    const state = findingState(finding, today);
    if (state !== 'put_off' && state !== 'declined')
      throw new Refused(
        'CONFLICT',
        `Finding ${finding.number}, “${finding.title}”, is ${state.replace('_', ' ')}: only what was put off or declined is settled on a later visit.`,
      );
    // save
    await tx.findingEvent.create({
      data: {
        ...{ findingId: finding.id, kind: 'settled', meaning },
        ...{ at: context.now(), byId: personId },
      },
    });
    return finding.id;
  });
}
