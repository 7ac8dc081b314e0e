import { type Bits, uniform } from '../../../labour/src/random.ts';
import type { Knowledge } from '../../src/knowledge.ts';
import type { Seen } from '../../src/sighting.ts';
import type { Question } from '../../src/symptom.ts';
import { chancesOf, priorOf } from '../../src/tables.ts';

/** How well people look. */
export interface Looking {
  /** Share of looks that somebody answers, and of checks that somebody makes. */
  readonly looks: number;
  readonly checks: number;
  /** Share of answers that are simply wrong, any answer alike. */
  readonly misread: number;
  /** Share of findings that somebody noted in haste: every look answered as is usual, whatever is there. */
  readonly hasty: number;
}

export interface SimulatedCase {
  readonly seen: Seen;
  readonly cause: string;
}

function drawn(chances: readonly number[], bits: Bits): number {
  let left = uniform(bits);
  return chances.findIndex((chance) => {
    left -= chance;
    return left < 0;
  });
}

/** One finding of a shop, as it truly is there, and what somebody answered of it. */
export function drawCase(truth: Knowledge, looking: Looking, bits: Bits): SimulatedCase {
  const symptom = truth.symptoms[0]!;
  const cause = symptom.causes.at(drawn(priorOf(truth, symptom, symptom.causes), bits))!;
  const hasty = uniform(bits) < looking.hasty;
  const really: Record<string, string> = {};
  const seen: Record<string, string> = {};
  const answer = (question: Question) => {
    const given = question.given === undefined ? '' : really[question.given]!;
    const chances =
      hasty && question.kind === 'look'
        ? question.answers.map(({ id }) => question.usual[id]! / 100)
        : chancesOf(truth, symptom, cause, question, given);
    really[question.id] = question.answers.at(drawn(chances, bits))!.id;
    const told = uniform(bits) < (question.kind === 'look' ? looking.looks : looking.checks);
    const wrong = uniform(bits) < looking.misread;
    const any = question.answers[Math.floor(uniform(bits) * question.answers.length)]!.id;
    if (told) seen[question.id] = wrong ? any : really[question.id]!;
    for (const further of symptom.questions) if (further.given === question.id) answer(further);
  };
  for (const question of symptom.questions) if (question.given === undefined) answer(question);
  return { seen, cause: cause.id };
}
