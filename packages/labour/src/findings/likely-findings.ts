import { FINDING_PRIORS, type FindingCount, type FindingPriors } from './finding-counts.ts';
import { type FindingFrequency, findingFrequency } from './finding-frequency.ts';

/** A kind of finding with what was counted of it, on every model that the package was done on. */
export type CountedFinding = {
  readonly finding: string;
  readonly counts: readonly FindingCount[];
};

export type LikelyFinding = FindingFrequency & {
  readonly finding: string;
  /** In one sentence. */
  readonly sentence: string;
};

const perCent = (share: number): string =>
  share < 0.01 ? 'under 1 %' : `${Math.round(share * 100)} %`;

function sentenceOf(model: string, one: FindingFrequency): string {
  const here =
    one.of === 0
      ? `Not yet looked for on ${model}`
      : `Seen ${one.seen} of ${one.of} times on ${model}`;
  const elsewhere =
    one.ofElsewhere === 0 ? '' : `, ${one.seenElsewhere} of ${one.ofElsewhere} on others`;
  return `${here}${elsewhere}: to be expected ${perCent(one.probability)} of the time (${perCent(one.from)} to ${perCent(one.to)}).`;
}

/**
 * Likely findings: what tends to turn up in a package on a model, the likeliest first; see `findingFrequency`.
 *
 * @throws RangeError for counts or priors that cannot be
 */
export function likelyFindings(
  counted: readonly CountedFinding[],
  model: string,
  priors: FindingPriors = FINDING_PRIORS,
): LikelyFinding[] {
  return counted
    .map(({ finding, counts }) => {
      const frequency = findingFrequency(finding, counts, model, priors);
      return { finding, ...frequency, sentence: sentenceOf(model, frequency) };
    })
    .sort((a, b) => b.probability - a.probability || (a.finding < b.finding ? -1 : 1));
}
