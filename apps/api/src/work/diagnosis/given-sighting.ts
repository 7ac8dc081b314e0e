import { checkSeen, symptomOf, tables } from '@fairlead/diagnosis';
import { Refused } from '../../errors.ts';
import { atMost } from '../limits.ts';

/** What somebody saw, as a page sends it. */
export interface GivenSighting {
  symptom: string;
  answers: readonly { question: string; answer?: string | null | undefined }[];
}

/** Answers by question, as they are kept; null takes an earlier answer back. */
export type KeptAnswers = Record<string, string | null>;

/** More questions than this no symptom has. */
const MOST_ANSWERS = 40;

/** A sighting as it is kept. A symptom, question or answer that the tables do not have is refused by name. */
export function keptAnswers(given: GivenSighting, field: string): KeptAnswers {
  const answers = atMost(given.answers, `${field}.answers`, MOST_ANSWERS);
  const kept = new Map<string, string | null>();
  for (const { question, answer } of answers) {
    if (kept.has(question))
      throw new Refused(
        'BAD_INPUT',
        `"${question.slice(0, 40)}" is answered twice: needed is one answer to a question.`,
        `${field}.answers`,
      );
    kept.set(question, answer ?? null);
  }
  orRefuse(field, () => {
    const symptom = symptomOf(tables, given.symptom);
    // An answer taken back is still of a question that there is.
    const checked = [...kept].map(([id, answer]) => [id, answer ?? anyAnswer(symptom, id)]);
    checkSeen(symptom, Object.fromEntries(checked) as Record<string, string>);
  });
  return Object.fromEntries(kept);
}

const anyAnswer = ({ questions }: ReturnType<typeof symptomOf>, id: string): string =>
  questions.find((question) => question.id === id)?.answers[0]?.id ?? '';

/** What the tables refuse is the caller's mistake: their sentence names what was given and what there is. */
export function orRefuse<T>(field: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof RangeError) throw new Refused('BAD_INPUT', error.message, field);
    throw error;
  }
}
