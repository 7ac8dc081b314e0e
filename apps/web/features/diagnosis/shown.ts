import type { NextCheck, RankedCause } from '@fairlead/diagnosis';
import type { MayBeQuery } from '../../graphql/generated/graphql.ts';

export type FindingMayBe = Extract<MayBeQuery['node'], { __typename: 'Finding' }>;
export type Suggested = NonNullable<FindingMayBe['suggestion']>;

/** A cause as it is drawn, whether the shop's server computed it or this device. */
export type CauseShown = Omit<Suggested['causes'][number], 'workJasc'>;
/** What to look at next, likewise. */
export type LookShown = Suggested['next'][number];

/** A cause that this device computed from the program's tables; tasks and their hours are the server's. */
export const causeShown = ({ id, work, reasons, ...rest }: RankedCause): CauseShown => ({
  ...rest,
  cause: id,
  workTitle: work?.title ?? null,
  tasks: [],
  reasons: reasons.map(({ sentence, speaks, source }) => ({ sentence, speaks, source })),
});

export const lookShown = (check: NextCheck): LookShown => ({
  ...check,
  cautions: [...check.cautions],
  outcomes: check.outcomes.map(({ answer, words, points }) => ({
    answer,
    words,
    pointsTo: points.name,
    pointsProbability: points.probability,
  })),
});

/**
 * A probability in whole per cent; nothing is ever certain.
 *
 * @example chanceText(0.652) // → '65 %'
 * @example chanceText(0.004) // → '<1 %'
 */
export function chanceText(probability: number): string {
  const percent = Math.round(100 * probability);
  if (percent < 1) return '<1 %';
  return percent > 99 ? '>99 %' : `${percent} %`;
}
