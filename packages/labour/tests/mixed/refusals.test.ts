import { describe, expect, it } from 'vitest';
import { fitMixed, type Grouping, type MixedModel } from '../../src/index.ts';

const numbers = (...values: number[]) => Float64Array.from(values);
const indices = (...values: number[]) => Int32Array.from(values);
const group = (levels: number, of: Grouping['of'], more: Partial<Grouping> = {}): Grouping => ({
  name: 'g',
  levels: Array.from({ length: levels }, (_, level) => `l${level}`),
  of,
  ...more,
});
const pairs = indices(0, 0, 1, 1, 2, 2);
const model: MixedModel = {
  y: numbers(1, 2, 4, 3.5, 9, 8),
  fixed: [],
  groups: [group(3, pairs)],
  method: 'reml',
};
const x = { name: 'x', values: numbers(0, 1, 2, 3, 4, 6) };
const spread = { mean: -1, sd: 0.5 };

describe('refused with a sentence', () => {
  const cases: [string, Partial<MixedModel>, string][] = [
    ['NaN', { y: numbers(1, 2, Number.NaN, 3, 4, 5) }, 'row 3: a finite number is needed; got NaN'],
    [
      'an infinite covariate',
      { fixed: [{ name: 'x', values: numbers(0, 1, 2, 3, 4, Infinity) }] },
      'Column x, row 6',
    ],
    [
      'a short column',
      { fixed: [{ name: 'x', values: numbers(0, 1) }] },
      'Column x has 2 values; the response has 6.',
    ],
    ['1e200', { y: numbers(1, 2, 3, 4, 5, 1e200) }, 'another unit'],
    ['1e-200', { y: numbers(1, 2, 3, 4, 5, 6).map((v) => v * 1e-200) }, 'another unit'],
    [
      'a weight of zero',
      { weights: numbers(1, 1, 0, 1, 1, 1) },
      'Row 3: a weight must be above 0; got 0.',
    ],
    ['a constant response', { y: numbers(2, 2, 2, 2, 2, 2) }, 'All 6 values of the response are 2'],
    [
      'a response constant within levels',
      { y: numbers(1, 1, 2, 2, 5, 5) },
      'without a rest worth the name',
    ],
    [
      'one nearly constant within levels',
      { y: numbers(1, 1, 2, 2, 5, 5.000001) },
      'without a rest worth the name',
    ],
    ['an exact line', { y: x.values, fixed: [x] }, 'without a rest worth the name'],
    [
      'an exact line without groups',
      { y: x.values, fixed: [x], groups: [] },
      'without a rest worth the name',
    ],
    [
      'a constant covariate',
      { fixed: [{ name: 'c', values: numbers(3, 3, 3, 3, 3, 3) }] },
      'The fixed term c is a combination',
    ],
    [
      'fewer rows than effects',
      { y: numbers(1, 2), groups: [], fixed: [{ name: 'x', values: numbers(0, 1) }] },
      '2 rows cannot tell 2 fixed effects',
    ],
    [
      'a level that is not there',
      { groups: [group(2, pairs)] },
      'Group g has 2 levels; a row names number 2.',
    ],
    [
      'a short group',
      { groups: [group(2, indices(0, 1))] },
      'Group g has 2 rows; the response has 6.',
    ],
    [
      'one level',
      { groups: [group(1, indices(0, 0, 0, 0, 0, 0))] },
      'Group g has one level in 6 rows',
    ],
    [
      'one level of many that is used',
      { groups: [group(9, indices(0, 0, 0, 0, 0, 0))] },
      'Group g has one level in 6 rows',
    ],
    [
      'a level for each row',
      { groups: [group(6, indices(0, 1, 2, 3, 4, 5))] },
      'as many levels as there are rows (6)',
    ],
    [
      'more effects than rows',
      { groups: [group(3, pairs, { slopes: [x] })] },
      'Group g has 3 levels of 2 terms in 6 rows',
    ],
    [
      'a slope that stands still',
      { groups: [group(3, pairs, { slopes: [{ name: 's', values: numbers(7, 7, 7, 7, 7, 7) }] })] },
      'Slope s of group g is 7 in every row',
    ],
    [
      'a group of nothing',
      { groups: [group(3, pairs, { intercept: false })] },
      'neither an intercept nor slopes',
    ],
    [
      'members that do not add up',
      {
        groups: [
          group(3, { start: indices(0, 1, 2, 3, 4, 5, 6), level: pairs, share: numbers(1, 1) }),
        ],
      },
      'do not add up',
    ],
    [
      'a share that is no number',
      {
        groups: [
          group(3, {
            start: indices(0, 1, 2, 3, 4, 5, 6),
            level: pairs,
            share: numbers(1, 1, 1, 1, 1, Number.NaN),
          }),
        ],
      },
      'must be finite',
    ],
    [
      'a prior of nothing',
      { priors: { z: { mean: 0, sd: 1 } } },
      'a prior of z, which is no fixed effect; those are (Intercept).',
    ],
    [
      'a prior without width',
      { priors: { '(Intercept)': { mean: 0, sd: 0 } } },
      'an s.d. above 0; got 0 and 0.',
    ],
    [
      'a prior with ML',
      { priors: { '(Intercept)': { mean: 0, sd: 1 } }, method: 'ml' },
      'need the method reml',
    ],
    [
      'a spread without width',
      { residualSpread: { mean: 0, sd: 0 } },
      'The prior of the spread of the residual',
    ],
  ];

  it.each(cases)('%s', (_, change, sentence) => {
    expect(() => fitMixed({ ...model, ...change })).toThrow(RangeError);
    expect(() => fitMixed({ ...model, ...change })).toThrow(sentence);
  });
});

describe('answered', () => {
  const priors = { '(Intercept)': { mean: 0, sd: 1 } };
  const cases: [string, MixedModel][] = [
    [
      'one row, where priors say the rest',
      {
        y: numbers(2),
        fixed: [],
        groups: [group(1, indices(0), { spread })],
        method: 'reml',
        residualSpread: spread,
        priors,
      },
    ],
    [
      'one level with a prior',
      { ...model, groups: [group(1, indices(0, 0, 0, 0, 0, 0), { spread })] },
    ],
    [
      'all equal, with priors of spreads',
      {
        ...model,
        y: numbers(2, 2, 2, 2, 2, 2),
        groups: [group(3, pairs, { spread })],
        residualSpread: spread,
      },
    ],
    ['a level that no row has', { ...model, groups: [group(5, pairs)] }],
    ['10⁶ times the usual', { ...model, y: model.y.map((value) => value * 1e6) }],
    ['three rows', { ...model, y: numbers(1, 1.5, 5), groups: [group(2, indices(0, 0, 1))] }],
  ];

  it.each(cases)('%s', (_, given) => {
    const fit = fitMixed(given);
    const all = [
      fit.residual,
      fit.criterion,
      ...fit.fixed.flatMap(({ estimate, se }) => [estimate, se]),
    ];
    for (const { covariance, effects } of fit.groups) all.push(...covariance, ...effects);
    expect(all.every(Number.isFinite)).toBe(true);
    expect(fit.residual).toBeGreaterThan(0);
  });

  it('a level that no row has: its effect is zero', () => {
    expect([
      ...fitMixed({ ...model, groups: [group(5, pairs)] }).groups[0]!.effects.slice(3),
    ]).toEqual([0, 0]);
  });
});
