import type { Knowledge } from './knowledge.ts';
import type { AircraftKind, Question, Symptom } from './symptom.ts';

/** Answers by question. What is not known is left out. */
export type Seen = Readonly<Record<string, string>>;

/** What is seen on one aircraft. */
export interface Sighting {
  readonly symptom: string;
  readonly seen: Seen;
  readonly aircraft?: AircraftKind | undefined;
}

/**
 * A symptom by its id.
 *
 * @throws RangeError naming those that there are
 */
export function symptomOf({ symptoms }: Knowledge, id: string): Symptom {
  const symptom = symptoms.find((one) => one.id === id);
  if (!symptom)
    throw new RangeError(
      `There is no symptom "${id.slice(0, 40)}"; there are ${symptoms.map((one) => one.id).join(', ')}.`,
    );
  return symptom;
}

/** @throws RangeError where the symptom has no such question, or the question no such answer */
export function checkSeen(symptom: Symptom, seen: Seen): void {
  for (const [id, given] of Object.entries(seen)) {
    const question = symptom.questions.find((one) => one.id === id);
    if (!question)
      throw new RangeError(
        `"${symptom.name}" has no question "${id.slice(0, 40)}"; it has ${symptom.questions.map((one) => one.id).join(', ')}.`,
      );
    if (!question.answers.some((answer) => answer.id === given))
      throw new RangeError(
        `"${question.asks}" cannot be answered "${String(given).slice(0, 40)}"; it takes ${question.answers.map((answer) => answer.id).join(', ')}.`,
      );
  }
}

/** What of an older sighting today's tables still know: questions and answers that went away are left out. */
export function stillKnown(symptom: Symptom, seen: Seen): Seen {
  const fits = (question: Question) =>
    question.answers.some((answer) => answer.id === seen[question.id]);
  return Object.fromEntries(
    symptom.questions.filter(fits).map(({ id }) => [id, seen[id] as string]),
  );
}
