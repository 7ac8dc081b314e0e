import type { Knowledge } from './knowledge.ts';
import type { Seen } from './sighting.ts';
import type { Cause, Question, Symptom } from './symptom.ts';
import { type Chances, chancesOf } from './tables.ts';

/** P(what is seen of a question and of those that depend on it | cause, the parent's answer). */
function ofTree(
  knowledge: Knowledge,
  symptom: Symptom,
  cause: Cause,
  seen: Seen,
  question: Question,
  given: string,
): number {
  const further = below(symptom, question).filter((one) => speaks(symptom, one, seen));
  const said = seen[question.id];
  if (said === undefined && further.length === 0) return 1;
  const chances = chancesOf(knowledge, symptom, cause, question, given);
  return question.answers.reduce((sum, { id }, index) => {
    if (said !== undefined && said !== id) return sum;
    const joint = further.reduce(
      (product, one) => product * ofTree(knowledge, symptom, cause, seen, one, id),
      chances[index] ?? 0,
    );
    return sum + joint;
  }, 0);
}

/** How a symptom's questions hang together: those that depend on none, and those that depend on each. */
interface Trees {
  readonly roots: readonly Question[];
  readonly below: ReadonlyMap<string, readonly Question[]>;
}

const trees = new WeakMap<Symptom, Trees>();

function treesOf(symptom: Symptom): Trees {
  const former = trees.get(symptom);
  if (former) return former;
  const { questions } = symptom;
  const made: Trees = {
    roots: questions.filter(({ given }) => given === undefined),
    below: new Map(questions.map(({ id }) => [id, questions.filter(({ given }) => given === id)])),
  };
  trees.set(symptom, made);
  return made;
}

const below = (symptom: Symptom, { id }: Question): readonly Question[] =>
  treesOf(symptom).below.get(id) ?? [];

const speaks = (symptom: Symptom, question: Question, seen: Seen): boolean =>
  seen[question.id] !== undefined ||
  below(symptom, question).some((one) => speaks(symptom, one, seen));

function rootOf(symptom: Symptom, question: Question): Question {
  const parent = symptom.questions.find(({ id }) => id === question.given);
  return parent ? rootOf(symptom, parent) : question;
}

/**
 * P(what is seen | cause), exactly. Questions that depend on each other hang together as trees and are taken
 * jointly: what nobody answered is summed over. Trees are independent of each other, given the cause.
 *
 *     P(seen | c) = Π over trees of Σ over unanswered of Π P(answer | answer of its parent, c)
 */
export function likelihood(
  knowledge: Knowledge,
  symptom: Symptom,
  cause: Cause,
  seen: Seen,
): number {
  return treesOf(symptom).roots.reduce(
    (product, root) => product * ofTree(knowledge, symptom, cause, seen, root, ''),
    1,
  );
}

/** P(answer | cause, what is seen) for each answer of a question that was not answered. Only its tree matters. */
export function foretold(
  knowledge: Knowledge,
  symptom: Symptom,
  cause: Cause,
  question: Question,
  seen: Seen,
): Chances {
  const root = rootOf(symptom, question);
  const joint = question.answers.map(({ id }) =>
    ofTree(knowledge, symptom, cause, { ...seen, [question.id]: id }, root, ''),
  );
  const all = joint.reduce((sum, one) => sum + one, 0);
  return joint.map((one) => one / all);
}
