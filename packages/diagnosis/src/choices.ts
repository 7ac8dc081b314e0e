import type { Knowledge } from './knowledge.ts';
import { foretold } from './likelihood.ts';
import { nextChecks } from './next-check.ts';
import { isOn, posterior } from './posterior.ts';
import { type Sighting, symptomOf } from './sighting.ts';
import type { Answer, Question } from './symptom.ts';

/**
 * Answers to a question in the order in which they are to be expected after what was seen, so that the likely ones
 * are under the thumb; those that concern other kinds of aircraft are left out.
 *
 * @throws RangeError for a symptom, question or answer that there is not
 */
export function answersInOrder(
  knowledge: Knowledge,
  sighting: Sighting,
  question: string,
): readonly Answer[] {
  const { [question]: _, ...seen } = sighting.seen;
  const { symptom, causes, probabilities } = posterior(knowledge, { ...sighting, seen });
  const asked = symptom.questions.find(({ id }) => id === question);
  if (!asked)
    throw new RangeError(
      `"${symptom.name}" has no question "${question.slice(0, 40)}"; it has ${symptom.questions.map(({ id }) => id).join(', ')}.`,
    );
  const perCause = causes.map((cause) => foretold(knowledge, symptom, cause, asked, seen));
  const expected = (index: number) =>
    perCause.reduce(
      (sum, chances, at) => sum + (probabilities[at] ?? 0) * (chances[index] ?? 0),
      0,
    );
  return asked.answers
    .map((answer, index) => ({ answer, expected: expected(index) }))
    .filter(({ answer }) => isOn(sighting.aircraft, answer.only))
    .toSorted((one, other) => other.expected - one.expected)
    .map(({ answer }) => answer);
}

/**
 * The next thing to ask somebody who looks: in the order of the table, since people see what a thing is before how much
 * of it there is; what would tell nothing after what was seen is not asked.
 *
 * @param skipped questions to which they had no answer
 * @returns null when nothing is left that would tell
 */
export function nextQuestion(
  knowledge: Knowledge,
  sighting: Sighting,
  skipped: ReadonlySet<string> = new Set(),
): Question | null {
  const telling = new Set(nextChecks(knowledge, sighting).map(({ question }) => question));
  return (
    symptomOf(knowledge, sighting.symptom).questions.find(
      ({ id, kind }) => kind === 'look' && telling.has(id) && !skipped.has(id),
    ) ?? null
  );
}
