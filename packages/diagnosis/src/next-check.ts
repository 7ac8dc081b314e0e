import { type Hazard, hazards } from './hazards.ts';
import type { Knowledge } from './knowledge.ts';
import { foretold } from './likelihood.ts';
import { isOn, type Posterior, posterior } from './posterior.ts';
import type { Sighting } from './sighting.ts';
import type { Question } from './symptom.ts';

/** What one answer to a question would mean. */
export interface Outcome {
  readonly answer: string;
  readonly words: string;
  /** How likely it is, from what is seen so far. */
  readonly probability: number;
  /** The cause that would then be likeliest, and how likely. */
  readonly points: { readonly cause: string; readonly name: string; readonly probability: number };
}

/** A look or a check that was not made yet, with what it is worth. */
export interface NextCheck {
  readonly question: string;
  readonly asks: string;
  readonly kind: Question['kind'];
  readonly how: string | null;
  readonly minutes: number;
  /** Expected information on the cause, in bits. */
  readonly bits: number;
  readonly bitsPerMinute: number;
  readonly outcomes: readonly Outcome[];
  readonly cautions: readonly string[];
}

/** Under a hundredth of a bit a check would tell nothing worth its time. */
const NEGLIGIBLE = 0.01;

/** Σ −p·log₂p. */
const entropy = (chances: readonly number[]): number =>
  chances.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);

/**
 * What to look at next: questions not answered yet, by the bits that each is expected to tell about the cause for
 * each minute of hands that it costs.
 *
 *     I(cause; answer | seen) = H(answer | seen) − Σ_c P(c | seen) · H(answer | c, seen)
 *
 * (mutual information; Lindley, Ann. Math. Stat. 27(4), 1956). It looks one step ahead.
 *
 * @returns the best first; none that tells less than a hundredth of a bit
 */
export function nextChecks(knowledge: Knowledge, sighting: Sighting): readonly NextCheck[] {
  const now = posterior(knowledge, sighting);
  return now.symptom.questions
    .filter(({ id, only }) => sighting.seen[id] === undefined && isOn(sighting.aircraft, only))
    .map((question) => worthOf(knowledge, sighting, now, question))
    .filter(({ bits }) => bits >= NEGLIGIBLE)
    .toSorted((one, other) => other.bitsPerMinute - one.bitsPerMinute);
}

function worthOf(
  knowledge: Knowledge,
  { seen }: Sighting,
  { symptom, causes, probabilities }: Posterior,
  question: Question,
): NextCheck {
  const perCause = causes.map((cause) => foretold(knowledge, symptom, cause, question, seen));
  const joint = question.answers.map((_, index) =>
    causes.map((__, at) => (probabilities[at] ?? 0) * (perCause[at]?.[index] ?? 0)),
  );
  const marginal = joint.map((row) => row.reduce((sum, one) => sum + one, 0));
  const left = perCause.reduce(
    (sum, chances, at) => sum + (probabilities[at] ?? 0) * entropy(chances),
    0,
  );
  const bits = Math.max(entropy(marginal) - left, 0);
  const outcomes = question.answers.map(({ id, words }, index): Outcome => {
    const row = joint[index] ?? [];
    const at = row.indexOf(Math.max(...row));
    const probability = marginal[index] ?? 0;
    return {
      answer: id,
      words,
      probability,
      points: {
        cause: causes[at]!.id,
        name: causes[at]!.name,
        probability: probability > 0 ? (row[at] ?? 0) / probability : 0,
      },
    };
  });
  return {
    question: question.id,
    asks: question.asks,
    kind: question.kind,
    how: question.how ?? null,
    minutes: question.minutes,
    bits,
    bitsPerMinute: bits / question.minutes,
    outcomes: outcomes.toSorted((one, other) => other.probability - one.probability),
    cautions: (question.hazards ?? []).map((hazard: Hazard) => hazards[hazard]),
  };
}
