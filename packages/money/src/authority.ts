import { type Minor, minor, nothing, sumOf } from './amount.ts';

/** One recorded decision of the owner about one thing offered: facts, only ever appended. */
export interface Authorisation {
  readonly id: string;
  /** What was decided on: the quote, or the finding, by its id. A later decision on it replaces the earlier. */
  readonly scope: string;
  /** Agreed up to this much, before tax; 0 when declined or withdrawn. */
  readonly ceiling: Minor;
  readonly decidedAt: Date;
}

/**
 * The ceiling the owner has agreed to so far: for each thing offered the latest decision counts, and
 * the ceilings of different things add. The order in which decisions are given does not matter; two
 * at the same instant are told apart by id, the later id counting.
 *
 * @throws RangeError for a ceiling below 0.
 * @example agreed([{ id: 'a', scope: 'quote', ceiling: minor(190000n), decidedAt: new Date(0) }]) // → 190000n
 */
export function agreed(authorisations: readonly Authorisation[]): Minor {
  const latest = new Map<string, Authorisation>();
  for (const authorisation of authorisations) {
    refuseNegative(authorisation.ceiling);
    const known = latest.get(authorisation.scope);
    if (known === undefined || isLater(authorisation, known)) {
      latest.set(authorisation.scope, authorisation);
    }
  }
  return sumOf([...latest.values()].map(({ ceiling }) => ceiling));
}

/** An amount, parted at the ceiling; the two parts add to it. */
export interface PartedAmount {
  readonly within: Minor;
  readonly beyond: Minor;
}

/**
 * What part of an amount lies within the owner's agreement and what part is beyond authority. Both
 * figures on the same footing: before tax.
 *
 * @param billed may be negative (a credit), which is always within.
 * @throws RangeError for a ceiling below 0.
 * @example withinAgreed({ billed: minor(210000n), ceiling: minor(190000n) }) // → { within: 190000n, beyond: 20000n }
 */
export function withinAgreed({
  billed,
  ceiling,
}: {
  readonly billed: Minor;
  readonly ceiling: Minor;
}): PartedAmount {
  refuseNegative(ceiling);
  return billed > ceiling
    ? { within: ceiling, beyond: minor(billed - ceiling) }
    : { within: billed, beyond: nothing };
}

function isLater(one: Authorisation, other: Authorisation): boolean {
  const difference = one.decidedAt.getTime() - other.decidedAt.getTime();
  return difference === 0 ? one.id > other.id : difference > 0;
}

function refuseNegative(ceiling: Minor): void {
  if (ceiling < 0n) {
    throw new RangeError(`Cannot agree up to ${ceiling} minor units: give a ceiling of 0 or more`);
  }
}
