import { describe, expect, it } from 'vitest';
import { mixtureQuantile } from '../../src/findings/beta.ts';
import { FINDING_PRIORS, findingFrequency, likelyFindings } from '../../src/index.ts';

const counts = (...pairs: [seen: number, of: number][]) =>
  pairs.map(([seen, of], index) => ({ model: 'ABC'.charAt(index), seen, of }));

describe('quantiles of beta distributions', () => {
  // R 4.2.2, qbeta.
  it.each([
    [1, 1, 0.25, 0.25],
    [2, 5, 0.95, 0.581803409252],
    [0.1, 0.9, 0.95, 0.654277423658],
    [40.5, 10.2, 0.5, 0.80276548887],
    [3, 7, 0.05, 0.0977468134393],
  ])('Beta(%s, %s) at %s', (a, b, p, quantile) => {
    expect(mixtureQuantile([{ weight: 1, a, b }], p)).toBeCloseTo(quantile, 6);
  });

  it('of a mixture lies where its parts say: two even halves', () => {
    const parts = [
      { weight: 0.5, a: 1, b: 1 },
      { weight: 0.5, a: 2, b: 1 },
    ];
    // (x + x²)/2 = 1/2 at the golden ratio's inverse.
    expect(mixtureQuantile(parts, 0.5)).toBeCloseTo((Math.sqrt(5) - 1) / 2, 6);
  });
});

describe('how often a finding turns up', () => {
  // The same integrals in R 4.2.2 (lbeta, pbeta, uniroot) over 6,000 × 801 places, far out in both directions.
  it.each([
    [
      'seen here and elsewhere',
      counts([3, 10], [0, 5], [6, 9]),
      'A',
      0.310352,
      0.1249662,
      0.5242864,
    ],
    ['seen elsewhere only', counts([3, 10], [0, 5], [6, 9]), 'Z', 0.3193164, 0.0082072, 0.7424977],
    ['seen often', counts([40, 50]), 'A', 0.787052, 0.68738, 0.873867],
    ['never here, often elsewhere', counts([0, 30], [8, 10]), 'A', 0.0137917, 0, 0.0640971],
    ['nothing counted', [], 'A', 0.1, 0, 0.7092265],
  ])('%s', (_, given, model, probability, from, to) => {
    const one = findingFrequency('crack', given, model);
    expect(Math.abs(one.probability - probability)).toBeLessThan(0.003);
    expect(Math.abs(one.from - from)).toBeLessThan(0.005);
    expect(Math.abs(one.to - to)).toBeLessThan(0.005);
  });

  it('leans on itself the more, the more was counted', () => {
    const far = (of: number) =>
      Math.abs(findingFrequency('x', counts([of / 2, of], [0, 50]), 'A').probability - 0.5);
    expect(far(4)).toBeGreaterThan(far(20));
    expect(far(20)).toBeGreaterThan(far(200));
    expect(far(200)).toBeLessThan(0.03);
  });

  it('counts what lies behind it', () => {
    expect(findingFrequency('x', counts([3, 10], [0, 5], [6, 9]), 'A')).toMatchObject({
      seen: 3,
      of: 10,
      seenElsewhere: 6,
      ofElsewhere: 14,
    });
  });

  it('puts the likeliest first, and says it in words', () => {
    const found = likelyFindings(
      [
        { finding: 'rare', counts: counts([0, 20]) },
        { finding: 'common', counts: counts([15, 20], [3, 4]) },
      ],
      'A',
    );
    expect(found.map(({ finding }) => finding)).toEqual(['common', 'rare']);
    expect(found[0]!.sentence).toMatch(
      /^Seen 15 of 20 times on A, 3 of 4 on others: to be expected 7\d % of the time \(5\d % to 8\d %\)\.$/,
    );
    expect(likelyFindings([{ finding: 'rare', counts: [] }], 'B')[0]!.sentence).toMatch(
      /^Not yet looked for on B: to be expected 10 % of the time \(under 1 % to 71 %\)\.$/,
    );
  });

  it.each([
    [counts([3, 2]), /got 3 of 2/],
    [counts([-1, 2]), /got -1 of 2/],
    [counts([0.5, 2]), /got 0\.5 of 2/],
    [[...counts([1, 2]), ...counts([1, 2])], /two counts for A/],
  ])('refuses what cannot be counted', (given, sentence) => {
    expect(() => findingFrequency('x', given, 'A')).toThrow(sentence);
  });

  it.each([
    { ...FINDING_PRIORS, share: { seen: 0, of: 1 } },
    { ...FINDING_PRIORS, share: { seen: 1, of: 1 } },
    { ...FINDING_PRIORS, alike: { packages: 0, within: 1 } },
  ])('refuses priors that are no distribution', (priors) => {
    expect(() => findingFrequency('x', [], 'A', priors)).toThrow(RangeError);
  });
});
