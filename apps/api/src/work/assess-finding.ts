import type { FindingClass } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { text } from './limits.ts';

export interface AssessFindingInput {
  findingId: string;
  class: FindingClass;
  /** What it means, in words that its owner understands. */
  meaning: string;
}

/** A qualified person's class of a finding and what it means. Assessed again, the last word counts. */
export async function assessFinding(context: Context, input: AssessFindingInput): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'manager');
  const roles = await context.roles();
  const meaning = text(input.meaning, 'meaning', { least: 3, most: 2000 });
  const today = await shopToday(context);

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'finding', input.findingId);
    const finding = await tx.finding.findUnique({
      where: { id: input.findingId },
      select: {
        id: true,
        events: {
          orderBy: [{ at: 'desc' }, { id: 'desc' }],
          take: 1,
          select: { kind: true, class: true, meaning: true, byId: true },
        },
      },
    });
    if (!finding) throw notFound('finding');
    const held = await tx.certificate.count({
      where: {
        personId,
        validFrom: { lte: today },
        OR: [{ validUntil: null }, { validUntil: { gte: today } }],
      },
    });
    // decide
    if (!roles.includes('inspector') && held === 0)
      throw new Refused(
        'FORBIDDEN',
        'A finding is assessed by an inspector, or by a manager who holds a certificate that is valid today; you hold none.',
      );
    const last = finding.events[0];
    if (
      last?.kind === 'assessed' &&
      last.class === input.class &&
      last.meaning === meaning &&
      last.byId === personId
    )
      return finding.id;
    // save
    await tx.findingEvent.create({
      data: {
        findingId: finding.id,
        kind: 'assessed',
        class: input.class,
        meaning,
        at: context.now(),
        byId: personId,
      },
    });
    return finding.id;
  });
}
