import { cautions } from './cautions.ts';
import { CAUSES_WEIGH, HALF_LIFE_YEARS, type Knowledge } from './knowledge.ts';
import { type NextCheck, nextChecks } from './next-check.ts';
import { posterior } from './posterior.ts';
import { type Reason, reasonsOf } from './reasons.ts';
import type { Sighting } from './sighting.ts';
import { sourceWords } from './sources.ts';
import { leakSays } from './stain-size.ts';
import type { Cause, CauseKind } from './symptom.ts';

/** A cause is only said to be likely when it is likelier than all others together. */
export const STANDS_OUT = 0.5;

export interface RankedCause {
  readonly id: string;
  readonly name: string;
  readonly kind: CauseKind;
  readonly probability: number;
  readonly why: string;
  readonly source: string;
  readonly remedy: string;
  readonly work: { readonly title: string; readonly jasc: string } | null;
  readonly reasons: readonly Reason[];
}

export interface Suggestion {
  /** `stands_out`: the first is likelier than all others together. `unsure`: nothing is, or what is, is not on the list. */
  readonly standing: 'stands_out' | 'unsure';
  /** The standing in a sentence. */
  readonly says: string;
  /** All causes that the aircraft can have, the likeliest first; they sum to 1. */
  readonly causes: readonly RankedCause[];
  /** What would tell most for its time: looks that were not answered, and checks. */
  readonly next: readonly NextCheck[];
  /** What the size of a fuel leak asks for, whatever its cause. */
  readonly leak: string | null;
  readonly cautions: readonly string[];
  /** What the probabilities rest on, in a sentence. */
  readonly restsOn: string;
}

/**
 * From what is seen to what it may be: causes by Bayes' rule, each with its reasons, and the check that would tell
 * them apart most cheaply. Arguments are not changed; the order of what was seen does not matter.
 *
 * @throws RangeError for a symptom, question or answer that the tables do not have
 */
export function suggest(knowledge: Knowledge, sighting: Sighting): Suggestion {
  const { symptom, causes, probabilities } = posterior(knowledge, sighting);
  const reasons = reasonsOf(knowledge, sighting);
  const ranked = causes
    .map((cause, index) => ({ cause, probability: probabilities[index] ?? 0 }))
    .toSorted((one, other) => other.probability - one.probability)
    .map(
      ({ cause, probability }): RankedCause => ({
        id: cause.id,
        name: cause.name,
        kind: cause.kind,
        probability,
        why: cause.why,
        source: sourceWords(cause.source),
        remedy: cause.remedy,
        work: cause.work,
        reasons: reasons.get(cause.id) ?? [],
      }),
    );
  return {
    ...standingOf(ranked, Object.keys(sighting.seen).length),
    causes: ranked,
    next: nextChecks(knowledge, sighting),
    leak: leakSays(sighting),
    cautions,
    restsOn: restsOn(knowledge, symptom.id),
  };
}

/** Whole per cent; nothing is ever certain, nor ruled out. */
function percent(share: number): string {
  const whole = Math.round(share * 100);
  if (whole < 1) return 'under 1 %';
  return whole > 99 ? 'over 99 %' : `${whole} %`;
}

function standingOf(
  [first]: readonly RankedCause[],
  answers: number,
): Pick<Suggestion, 'standing' | 'says'> {
  const needed = percent(STANDS_OUT);
  if (!first) return { standing: 'unsure', says: 'No cause on the list fits this aircraft.' };
  const { kind, name, probability } = first;
  if (probability <= STANDS_OUT)
    return {
      standing: 'unsure',
      says: `Not known: ${answers === 0 ? 'nothing was looked at yet, and ' : ''}the likeliest has ${percent(probability)}; more than ${needed} is needed to say one.`,
    };
  if (kind === 'something_else')
    return {
      standing: 'unsure',
      says: `Not known: what is seen fits none of the causes listed (${percent(probability)}).`,
    };
  return {
    standing: 'stands_out',
    says: `${kind === 'normal' ? 'Most likely nothing is wrong' : 'Most likely'}: ${name} (${percent(probability)}).`,
  };
}

function restsOn({ learnt }: Knowledge, symptom: string): string {
  const assumed = `the program’s tables, which count as ${CAUSES_WEIGH} cases`;
  const { count, weight } = learnt.cases[symptom] ?? { count: 0, weight: 0 };
  if (count === 0) return `Rests on ${assumed}; this shop has closed none of the kind yet.`;
  return `Rests on ${assumed}, and on ${count} closed ${count === 1 ? 'finding' : 'findings'} of this shop, which ${count === 1 ? 'counts' : 'count'} as ${Math.round(weight * 10) / 10} (half after ${HALF_LIFE_YEARS} years).`;
}

/** A cause of a symptom by its id, as the tables have it. */
export function causeById(knowledge: Knowledge, symptom: string, id: string): Cause | undefined {
  return knowledge.symptoms.find((one) => one.id === symptom)?.causes.find((one) => one.id === id);
}
