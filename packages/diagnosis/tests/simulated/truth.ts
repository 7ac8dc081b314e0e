import { type Bits, gamma } from '../../../labour/src/random.ts';
import { CAUSES_WEIGH, type Knowledge, nothingLearnt, ROW_WEIGHS } from '../../src/knowledge.ts';
import type { Cause, Question, Row, Symptom } from '../../src/symptom.ts';
import { chancesOf, contextOf } from '../../src/tables.ts';

/** A point of a Dirichlet distribution with these parameters. */
function dirichlet(parameters: readonly number[], bits: Bits): number[] {
  const parts = parameters.map((parameter) => Math.max(gamma(parameter, bits), 1e-12));
  const all = parts.reduce((sum, part) => sum + part, 0);
  return parts.map((part) => part / all);
}

/**
 * How it truly is in one shop: the tables with every row and the shares of the causes drawn anew about what is assumed.
 *
 * @param alike 1: as far from the tables as the program reckons with; below, farther; above, nearer
 */
export function trueTables(
  assumed: Knowledge,
  symptom: Symptom,
  alike: number,
  bits: Bits,
): Knowledge {
  const whole = symptom.causes.reduce((sum, { weight }) => sum + weight, 0);
  const shares = dirichlet(
    symptom.causes.map(({ weight }) => (alike * CAUSES_WEIGH * weight) / whole),
    bits,
  );
  const causes = symptom.causes.map((cause, index) => ({
    ...cause,
    weight: shares[index]!,
    rows: symptom.questions.flatMap((question) =>
      contextsOf(symptom, cause, question).map((context) => {
        const chances = chancesOf(assumed, symptom, cause, question, context);
        const drawn = dirichlet(
          chances.map((chance) => alike * ROW_WEIGHS * chance),
          bits,
        );
        const row = Object.fromEntries(
          question.answers.map(({ id }, at) => [id, 100 * drawn[at]!]),
        );
        return context === ''
          ? ([question.id, row, 'practice'] satisfies Row)
          : ([question.id, row, 'practice', context] satisfies Row);
      }),
    ),
  }));
  return { symptoms: [{ ...symptom, causes }], learnt: nothingLearnt };
}

/** The parent's answers on which a row depends, and '' for all others. */
function contextsOf(symptom: Symptom, cause: Cause, question: Question): string[] {
  const parent = symptom.questions.find(({ id }) => id === question.given);
  const all = parent?.answers.map(({ id }) => contextOf(cause, question, id)) ?? [''];
  return [...new Set(all)];
}
