/** How often a kind of finding turned up in a package: k of n, on one model of aircraft. */
export type FindingCount = {
  readonly model: string;
  /** Packages of this kind in which it was found, a whole number of 0 or more. */
  readonly seen: number;
  /** Packages of this kind that were done, a whole number, `seen` or more. */
  readonly of: number;
};

/** What is believed of a kind of finding before anything was counted. Data that a shop can edit. */
export type FindingPriors = {
  /** The share of packages in which it turns up, over all models: as if it had been seen `seen` times in `of`. */
  readonly share: { readonly seen: number; readonly of: number };
  /** How alike models are: as if each brought so many packages of its own from all the others; ln-normal about `packages`. */
  readonly alike: { readonly packages: number; readonly within: number };
};

/** Common practice, no source: a kind of finding turns up in about one package in ten; models are rather alike. */
export const FINDING_PRIORS: FindingPriors = {
  share: { seen: 0.1, of: 1 },
  alike: { packages: 8, within: 1 },
};

/** @throws RangeError for counts that cannot be */
export function checkCounts(finding: string, counts: readonly FindingCount[]): void {
  for (const { model, seen, of } of counts) {
    if (Number.isInteger(seen) && Number.isInteger(of) && seen >= 0 && seen <= of) continue;
    throw new RangeError(
      `"${finding}" on ${model}: it needs whole numbers, 0 or more times seen, and no more often than the package was done; got ${seen} of ${of}.`,
    );
  }
}

/** @throws RangeError for priors that are no distribution */
export function checkFindingPriors({ share, alike }: FindingPriors): void {
  if (!(share.seen > 0 && share.seen < share.of && share.of < Infinity)) {
    throw new RangeError(
      `The prior share of a finding needs seen above 0 and below of; got ${share.seen} of ${share.of}.`,
    );
  }
  const fine =
    alike.packages > 0 && alike.packages < Infinity && alike.within > 0 && alike.within < Infinity;
  if (!fine) {
    throw new RangeError(
      `How alike models are needs packages and within above 0; got ${alike.packages} and ${alike.within}.`,
    );
  }
}
