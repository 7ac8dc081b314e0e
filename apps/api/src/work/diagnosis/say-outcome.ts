import type { OutcomeKind } from '@fairlead/database';
import { causeById, symptomOf, tables } from '@fairlead/diagnosis';
import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { holdFor } from '../../hold.ts';
import { findingFacts, findingState } from '../../states.ts';
import { shopToday } from '../../today.ts';
import { text } from '../limits.ts';
import { orRefuse } from './given-sighting.ts';

export interface SayOutcomeInput {
  findingId: string;
  symptom: string;
  kind: OutcomeKind;
  /** For `listed`: a cause of the symptom. */
  cause: string;
  words: string;
}

/** Says what a finding turned out to be. The last word counts; the shop's suggestions learn from it. */
export async function sayOutcome(context: Context, input: SayOutcomeInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const { kind } = input;
  const symptom = orRefuse('symptom', () => symptomOf(tables, input.symptom));
  const words = text(input.words, 'words', { least: kind === 'listed' ? 0 : 3, most: 500 });
  const cause = kind === 'listed' ? listedCause(symptom.id, input.cause) : null;
  const nothingWrong = kind === 'normal' || cause?.kind === 'normal';
  const today = await shopToday(context);

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'finding', input.findingId);
    const finding = await tx.finding.findUnique({
      where: { id: input.findingId },
      select: {
        id: true,
        number: true,
        title: true,
        ...findingFacts,
        outcomes: { orderBy: [{ at: 'desc' }, { id: 'desc' }], take: 1 },
      },
    });
    if (!finding) throw notFound('finding');
    // decide
    const said = { symptom: symptom.id, kind, cause: cause?.id ?? '', words };
    const last = finding.outcomes[0];
    const same = (Object.keys(said) as (keyof typeof said)[]).every(
      (key) => last?.[key] === said[key],
    );
    if (same && last?.byId === personId) return finding.id;
    if (!nothingWrong && findingState(finding, today) !== 'corrected')
      throw new Refused(
        'AGAINST_RULE',
        `Finding ${finding.number}, “${finding.title}”, is not corrected yet: what was wrong is said when its correction is done. That nothing is wrong may be said before.`,
      );
    // save
    await tx.findingOutcome.create({
      data: { findingId: finding.id, ...said, at: context.now(), byId: personId },
    });
    return finding.id;
  });
}

function listedCause(symptom: string, id: string) {
  const cause = causeById(tables, symptom, id);
  if (!cause || cause.kind === 'something_else') {
    const listed = symptomOf(tables, symptom).causes.filter((one) => one.kind !== 'something_else');
    throw new Refused(
      'BAD_INPUT',
      `There is no cause "${id.slice(0, 60)}" listed for ${symptom}; there are ${listed.map((one) => one.id).join(', ')}. Anything else is said in words.`,
      'cause',
    );
  }
  return cause;
}
