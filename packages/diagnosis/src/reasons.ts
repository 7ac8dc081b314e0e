import type { Knowledge } from './knowledge.ts';
import { foretold } from './likelihood.ts';
import { posterior } from './posterior.ts';
import type { Sighting } from './sighting.ts';
import { sourceWords } from './sources.ts';
import { rowOf } from './tables.ts';

/** What one observation does to one cause. */
export interface Reason {
  readonly question: string;
  readonly answer: string;
  /** log₂ of how much likelier the observation is with this cause than with the others still in question; bits. */
  readonly bits: number;
  readonly speaks: 'for' | 'against' | 'neither';
  readonly sentence: string;
  /** Of the row that spoke; none where only what is usual did. */
  readonly source: string | null;
}

/** Below a factor of 1.5 an observation is said to tell nothing. */
const TELLS = Math.log2(1.5);

/**
 * Why causes stand where they stand: for each observation, the log-likelihood ratio of a cause against the others,
 * weighed by what everything else that was seen leaves of them. It is what taking that observation back would undo:
 *
 *     bits = log₂ odds(c | all) − log₂ odds(c | all but this)
 *
 * so it does not depend on the order in which things were seen.
 *
 * @returns by cause, one reason an observation, the strongest first
 */
export function reasonsOf(
  knowledge: Knowledge,
  sighting: Sighting,
): ReadonlyMap<string, readonly Reason[]> {
  const perQuestion = Object.keys(sighting.seen).map((id) => ofOne(knowledge, sighting, id));
  const causes = perQuestion[0]?.keys() ?? [];
  return new Map(
    [...causes].map((cause) => [
      cause,
      perQuestion
        .flatMap((reasons) => reasons.get(cause) ?? [])
        .toSorted((one, other) => Math.abs(other.bits) - Math.abs(one.bits)),
    ]),
  );
}

/** What one observation does to each cause. */
function ofOne(knowledge: Knowledge, sighting: Sighting, id: string): Map<string, Reason> {
  const { [id]: given = '', ...rest } = sighting.seen;
  const { symptom, causes, probabilities } = posterior(knowledge, { ...sighting, seen: rest });
  const question = symptom.questions.find((one) => one.id === id)!;
  const at = question.answers.findIndex((one) => one.id === given);
  const { says } = question.answers[at]!;
  const chances = causes.map(
    (cause) => foretold(knowledge, symptom, cause, question, rest)[at] ?? 0,
  );
  const over = (except: number) =>
    causes.reduce(
      (sum, _, index) =>
        index === except ? sum : sum + (probabilities[index] ?? 0) * (chances[index] ?? 0),
      0,
    );
  return new Map(
    causes.map((cause, index) => {
      const others = over(index) / (1 - (probabilities[index] ?? 0));
      const factor = (chances[index] ?? 0) / others;
      const bits = Math.log2(factor);
      const speaks = Math.abs(bits) < TELLS ? 'neither' : bits > 0 ? 'for' : 'against';
      const source = rowOf(cause, question, rest[question.given ?? ''] ?? '')?.[2];
      return [
        cause.id,
        {
          question: id,
          answer: given,
          bits,
          speaks,
          sentence: `${says}: ${strength(factor, speaks)}.`,
          source: source ? sourceWords(source) : null,
        },
      ];
    }),
  );
}

/**
 * A factor in words.
 *
 * @example strength(12.3, 'for') // → 'about 12 times as likely with this cause as with the others'
 * @example strength(0.25, 'against') // → 'about 4 times less likely with this cause than with the others'
 * @example strength(1.1, 'neither') // → 'about as likely with the other causes'
 */
export function strength(factor: number, speaks: Reason['speaks']): string {
  if (speaks === 'neither') return 'about as likely with the other causes';
  const times = speaks === 'for' ? factor : 1 / factor;
  const rounded = times < 3 ? Math.round(times * 10) / 10 : Math.round(times);
  const said = times > 50 ? 'more than 50' : `about ${rounded}`;
  return speaks === 'for'
    ? `${said} times as likely with this cause as with the others`
    : `${said} times less likely with this cause than with the others`;
}
