import { answerKey, causeKey, HALF_LIFE_YEARS, type Knowledge } from './knowledge.ts';
import { checkSeen, type Seen, symptomOf } from './sighting.ts';
import { contextOf } from './tables.ts';

/** A finding of the shop whose cause became known. */
export interface ClosedCase {
  readonly symptom: string;
  readonly seen: Seen;
  /** The cause's id. */
  readonly turnedOut: string;
  /** How long ago; 0 or more. */
  readonly yearsAgo: number;
}

/**
 * What a closed finding weighs: half after each HALF_LIFE_YEARS.
 *
 * @example weightAfter(0) // → 1
 * @example weightAfter(12) // → 0.25
 */
export function weightAfter(years: number): number {
  if (!(years >= 0))
    throw new RangeError(`A closed finding is ${years} years old; needed is 0 or more.`);
  return 0.5 ** (years / HALF_LIFE_YEARS);
}

/**
 * Adds a shop's closed findings to what is known: to how often each cause is the cause (Dirichlet), and to how often
 * it looks like that (Dirichlet a row; beta where there are two answers). An answer whose parent was not seen is
 * counted only where the row is the same for all of the parent's answers: nothing is guessed.
 *
 * @returns new knowledge; what was given is not changed, and learning twice adds twice
 * @throws RangeError for a symptom, cause, question or answer that there is not, or a negative age
 */
export function learn(knowledge: Knowledge, cases: readonly ClosedCase[]): Knowledge {
  const causes: Record<string, number> = { ...knowledge.learnt.causes };
  const answers: Record<string, number> = { ...knowledge.learnt.answers };
  const counted = { ...knowledge.learnt.cases };
  const add = (to: Record<string, number>, key: string, weight: number) => {
    to[key] = (to[key] ?? 0) + weight;
  };
  for (const { symptom: id, seen, turnedOut, yearsAgo } of cases) {
    const symptom = symptomOf(knowledge, id);
    checkSeen(symptom, seen);
    const cause = symptom.causes.find((one) => one.id === turnedOut);
    if (!cause)
      throw new RangeError(
        `"${symptom.name}" has no cause "${turnedOut.slice(0, 60)}"; it has ${symptom.causes.map((one) => one.id).join(', ')}.`,
      );
    const weight = weightAfter(yearsAgo);
    add(causes, causeKey(id, cause.id), weight);
    for (const question of symptom.questions) {
      const answer = seen[question.id];
      if (answer === undefined) continue;
      const parent = question.given === undefined ? '' : seen[question.given];
      const depends =
        question.usualGiven !== undefined ||
        cause.rows.some(([of, , , on]) => of === question.id && on !== undefined);
      if (parent === undefined && depends) continue;
      const context = contextOf(cause, question, parent ?? '');
      add(answers, answerKey(id, cause.id, question.id, context, answer), weight);
    }
    const before = counted[id] ?? { count: 0, weight: 0 };
    counted[id] = { count: before.count + 1, weight: before.weight + weight };
  }
  return { ...knowledge, learnt: { causes, answers, cases: counted } };
}
