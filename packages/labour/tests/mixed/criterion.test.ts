import { describe, expect, it } from 'vitest';
import { CollinearError, Criterion, type Point } from '../../src/mixed/criterion.ts';
import { slopeOf } from '../../src/mixed/derivatives.ts';
import { smallInverse } from '../../src/mixed/small-cholesky.ts';
import { seededBits, standardNormal } from '../../src/random.ts';
import { denseValue, madeProblem, type Wanted } from './problems.ts';

const plain: Wanted = { rows: 40, fixed: 2, groups: [{ levels: 6 }], method: 'reml' };
const flat = { mean: 0, sd: Infinity };

const cases: [string, Wanted][] = [
  ['one group', plain],
  ['one group, ML', { ...plain, method: 'ml' }],
  ['two crossed groups', { ...plain, groups: [{ levels: 6 }, { levels: 5 }] }],
  ['no group', { ...plain, groups: [] }],
  ['no fixed effects', { ...plain, fixed: 0 }],
  ['three correlated terms', { ...plain, rows: 60, groups: [{ levels: 7, slopes: 2 }] }],
  [
    'three uncorrelated terms, ML',
    { ...plain, rows: 60, groups: [{ levels: 7, slopes: 2, correlated: false }], method: 'ml' },
  ],
  [
    'slopes crossed with another group, weighted',
    { ...plain, rows: 60, groups: [{ levels: 7, slopes: 1 }, { levels: 4 }], weighted: true },
  ],
  ['weights, ML', { ...plain, weighted: true, method: 'ml' }],
  ['two members to a row', { ...plain, groups: [{ levels: 6, members: 2 }, { levels: 4 }] }],
  [
    'three members to a row with slopes',
    { ...plain, rows: 60, groups: [{ levels: 6, slopes: 1, members: 3 }] },
  ],
  [
    'priors of some effects',
    { ...plain, fixed: 4, effects: [flat, { mean: 0.4, sd: 0.3 }, flat, { mean: -1, sd: 2 }] },
  ],
  [
    'priors of all effects, weighted',
    {
      ...plain,
      effects: [
        { mean: 1, sd: 1 },
        { mean: 0.4, sd: 0.1 },
      ],
      weighted: true,
    },
  ],
  [
    'priors of spreads',
    {
      ...plain,
      groups: [{ levels: 6, spread: { mean: -1, sd: 0.5 } }, { levels: 5 }],
      residual: { mean: -0.5, sd: 1 },
    },
  ],
  [
    'priors of spreads, ML, slopes',
    {
      ...plain,
      rows: 60,
      method: 'ml',
      groups: [{ levels: 6, slopes: 1, spread: { mean: -1, sd: 0.5 } }],
    },
  ],
  [
    'priors of everything',
    {
      rows: 60,
      fixed: 3,
      method: 'reml',
      weighted: true,
      groups: [
        { levels: 6, members: 2, spread: { mean: -1, sd: 0.5 } },
        { levels: 5, slopes: 1, spread: { mean: 0, sd: 1 } },
      ],
      effects: [flat, { mean: 0.4, sd: 0.3 }, { mean: 0.1, sd: 0.2 }],
      residual: { mean: -0.5, sd: 1 },
    },
  ],
];

/** A place in general position, and one where the terms are small. */
function placesOf(criterion: Criterion): { theta: Float64Array; lnSigma: number | undefined }[] {
  const bits = seededBits(criterion.n);
  return [0.9, 0.2].map((size, k) => ({
    theta: Float64Array.from(criterion.parameters, ({ row, column }) =>
      row === column
        ? size * (1 + 0.3 * Math.abs(standardNormal(bits)))
        : size * 0.5 * standardNormal(bits),
    ),
    lnSigma: criterion.profiled ? undefined : -0.3 - k / 2,
  }));
}

function at(criterion: Criterion, theta: Float64Array, lnSigma: number | undefined): Point {
  const point = criterion.at(theta, lnSigma);
  if (point === undefined) throw new Error('overflow');
  return point;
}

describe.each(cases)('the criterion: %s', (_, wanted) => {
  const made = madeProblem(wanted, 1992);
  const criterion = new Criterion(made.problem);
  const places = placesOf(criterion);

  it('is −2 ln likelihood as computed from the whole covariance matrix', () => {
    for (const { theta, lnSigma } of places) {
      const point = at(criterion, theta, lnSigma);
      const dense = denseValue(made, criterion.levels.factorsOf(theta), point.sigma2);
      expect(Math.abs(point.value / dense.value - 1)).toBeLessThan(1e-11);
      if (wanted.effects !== undefined) continue;
      const inverse = smallInverse(point.sx);
      dense.flatEffects.forEach((effect, j) => expect(point.beta[j]).toBeCloseTo(effect, 10));
      dense.flatCovariance
        .flat()
        .forEach((value, k) => expect(inverse[k]! * point.sigma2).toBeCloseTo(value, 10));
    }
  });

  it('is least at the profiled residual variance', () => {
    if (!criterion.profiled) return;
    const { theta } = places[0]!;
    const { sigma2, value } = at(criterion, theta, undefined);
    for (const share of [0.99, 1.01]) {
      const factors = criterion.levels.factorsOf(theta);
      expect(denseValue(made, factors, sigma2 * share).value).toBeGreaterThan(value);
    }
  });

  it('has the gradient that central differences show', () => {
    for (const { theta, lnSigma } of places) {
      const { gradient, size, hessian } = slopeOf(criterion, at(criterion, theta, lnSigma));
      expect(size).toBe(criterion.parameters.length + (criterion.profiled ? 0 : 1));
      expect(hessian.every(Number.isFinite)).toBe(true);
      for (let k = 0; k < size; k += 1) {
        const moved = (by: number) => {
          const next = theta.slice();
          if (k < theta.length) next[k]! += by;
          return at(criterion, next, k < theta.length ? lnSigma : lnSigma! + by).value;
        };
        // Richardson's two steps: the error of the difference is then of the fourth order.
        const one = (moved(1e-3) - moved(-1e-3)) / 2e-3;
        const two = (moved(2e-3) - moved(-2e-3)) / 4e-3;
        const wantedSlope = (4 * one - two) / 3;
        expect(Math.abs(gradient[k]! - wantedSlope)).toBeLessThan(
          1e-7 * Math.max(1, Math.abs(wantedSlope)),
        );
      }
    }
  });

  it('has second derivatives that are symmetric', () => {
    const { theta, lnSigma } = places[0]!;
    const { size, hessian } = slopeOf(criterion, at(criterion, theta, lnSigma));
    for (let k = 0; k < size; k += 1) {
      for (let l = 0; l < k; l += 1) {
        expect(hessian[k * size + l]).toBeCloseTo(hessian[l * size + k]!, 8);
      }
    }
  });
});

describe('the criterion', () => {
  it('solves the normal equations of the mixed model: ZᵀWe = G⁻¹b and XᵀWe = 0', () => {
    const made = madeProblem({ ...plain, groups: [{ levels: 6 }, { levels: 5 }] }, 7);
    const criterion = new Criterion(made.problem);
    const theta = Float64Array.of(0.7, 0.4);
    const { b, v } = at(criterion, theta, undefined);
    b.forEach((effect, s) => expect(v[s]).toBeCloseTo(effect / theta[s < 6 ? 0 : 1]! ** 2, 10));
  });

  it('names the column that those before it already say', () => {
    const made = madeProblem({ ...plain, fixed: 3 }, 7);
    const x = [...made.problem.x.slice(0, 2), made.problem.x[1]!.map((value) => 2 * value - 3)];
    const criterion = new Criterion({ ...made.problem, x, names: ['(Intercept)', 'a', 'twice a'] });
    expect(() => criterion.at(Float64Array.of(1))).toThrow(CollinearError);
    expect(() => criterion.at(Float64Array.of(1))).toThrow('fixed term twice a ');
  });

  it('takes priors of effects with REML only', () => {
    const { problem } = madeProblem({ ...plain, method: 'ml' }, 7);
    expect(() => new Criterion({ ...problem, effects: [flat, { mean: 0, sd: 1 }] })).toThrow(
      'need the method reml',
    );
  });

  it('steps back where the numbers overflow', () => {
    const criterion = new Criterion(madeProblem(plain, 7).problem);
    expect(criterion.at(Float64Array.of(1e200))).toBeUndefined();
    expect(criterion.at(Float64Array.of(Number.NaN))).toBeUndefined();
  });
});
