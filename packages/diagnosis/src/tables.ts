import { answerKey, CAUSES_WEIGH, causeKey, type Knowledge, ROW_WEIGHS } from './knowledge.ts';
import type { Cause, Question, Row, Shares, Symptom } from './symptom.ts';

/** Probabilities of a question's answers, in the order of its answers. */
export type Chances = readonly number[];

/** The row that speaks of a question under a cause: its own for that answer, else its own, else none. */
export function rowOf(cause: Cause, question: Question, given: string): Row | undefined {
  const own = cause.rows.filter(([id]) => id === question.id);
  return (
    own.find(([, , , on]) => on !== undefined && on === given) ??
    own.find(([, , , on]) => on === undefined)
  );
}

/** The answer of the parent that a row depends on; empty where it is the same for all of them. */
export function contextOf(cause: Cause, question: Question, given: string): string {
  const row = rowOf(cause, question, given);
  if (row) return row[3] ?? '';
  return question.usualGiven?.[given] ? given : '';
}

/** Shares as probabilities; what they leave goes to the other answers in the proportion that is usual. */
function spread(question: Question, usual: Shares, shares: Shares): number[] {
  const sumOver = (share: (id: string) => number) =>
    question.answers.reduce((sum, { id }) => sum + share(id), 0);
  const left = 100 - sumOver((id) => shares[id] ?? 0);
  const rest = sumOver((id) => (shares[id] === undefined ? (usual[id] ?? 0) : 0));
  return question.answers.map(
    ({ id }) => (shares[id] ?? (rest > 0 ? (left * (usual[id] ?? 0)) / rest : 0)) / 100,
  );
}

function computed(
  { learnt }: Knowledge,
  symptom: Symptom,
  cause: Cause,
  question: Question,
  given: string,
): Chances {
  const usual = question.usualGiven?.[given] ?? question.usual;
  const assumed = spread(question, usual, rowOf(cause, question, given)?.[1] ?? {});
  const context = contextOf(cause, question, given);
  const counted = question.answers.map(
    ({ id }) => learnt.answers[answerKey(symptom.id, cause.id, question.id, context, id)] ?? 0,
  );
  const all = counted.reduce((sum, weight) => sum + weight, ROW_WEIGHS);
  return assumed.map((share, index) => (ROW_WEIGHS * share + (counted[index] ?? 0)) / all);
}

/** A suggestion asks for the same row a thousand times; knowledge never changes, so what was computed holds. */
const known = new WeakMap<Knowledge, Map<Cause, Map<string, Chances>>>();

/**
 * P(answer | cause, answer of the parent): the row's shares, what they leave spread as is usual, and the shop's
 * closed findings added. The expectation of a Dirichlet distribution (of a beta, where there are two answers):
 *
 *     (ROW_WEIGHS · share + weight of the answer) / (ROW_WEIGHS + weight of all answers)
 *
 * @param given the parent's answer, or empty where the question has none
 */
export function chancesOf(
  knowledge: Knowledge,
  symptom: Symptom,
  cause: Cause,
  question: Question,
  given: string,
): Chances {
  const perCause = known.get(knowledge) ?? new Map<Cause, Map<string, Chances>>();
  known.set(knowledge, perCause);
  const rows = perCause.get(cause) ?? new Map<string, Chances>();
  perCause.set(cause, rows);
  const key = `${question.id} ${given}`;
  const chances = rows.get(key) ?? computed(knowledge, symptom, cause, question, given);
  rows.set(key, chances);
  return chances;
}

/**
 * How likely each cause is before anything is looked at: the expectation of a Dirichlet distribution,
 * CAUSES_WEIGH cases shared out as the tables say, with the shop's closed findings added.
 *
 * @param causes those that the aircraft can have; they share out the whole
 */
export function priorOf(
  { learnt }: Knowledge,
  symptom: Symptom,
  causes: readonly Cause[],
): readonly number[] {
  const whole = symptom.causes.reduce((sum, { weight }) => sum + weight, 0);
  const cases = causes.map(
    ({ id, weight }) =>
      (CAUSES_WEIGH * weight) / whole + (learnt.causes[causeKey(symptom.id, id)] ?? 0),
  );
  const all = cases.reduce((sum, one) => sum + one, 0);
  return cases.map((one) => one / all);
}
