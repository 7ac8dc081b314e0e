import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { fitMixed } from '@fairlead/labour';
import { describe, expect, it } from 'vitest';

/** Digits that agree: −log₁₀ of the relative error, 16 at most. */
function digits(found: number | undefined, wanted: number): number {
  const error = Math.abs((found ?? Number.NaN) / wanted - 1);
  return Math.min(16, -Math.log10(error));
}

function oneWay(levels: readonly (readonly number[])[]) {
  return fitMixed({
    y: Float64Array.from(levels.flat()),
    fixed: [],
    groups: [
      {
        name: 'level',
        levels: levels.map((_, level) => `${level + 1}`),
        of: Int32Array.from(levels.flatMap((values, level) => values.map(() => level))),
      },
    ],
    method: 'reml',
  });
}

/** p / q as the nearest float64. */
function quotient(p: bigint, q: bigint): number {
  const bits = BigInt(Math.max(0, q.toString(2).length - p.toString(2).length)) + 80n;
  return Number((p << bits) / q) / 2 ** Number(bits);
}

/**
 * The balanced one-way layout by the method of moments, in whole numbers, so without any rounding: within mean square
 * MSW, between mean square MSB. REML gives residual = MSW and variance = (MSB − MSW)/n when that is above zero (Searle,
 * Casella & McCulloch, Variance Components, 1992, §4.4).
 */
function moments(levels: readonly (readonly number[])[]) {
  const k = BigInt(levels.length);
  const n = BigInt(levels[0]!.length);
  // A float64 of at least 1 is a whole number of 2⁻⁵²; every sum below is of these.
  const whole = levels.map((values) => values.map((value) => BigInt(value * 2 ** 52)));
  const sum = (values: readonly bigint[]) => values.reduce((a, b) => a + b, 0n);
  const square = (values: readonly bigint[]) => sum(values.map((value) => value * value));
  const totals = whole.map(sum);
  const within = n * square(whole.flat()) - square(totals); // n × sum of squares within
  const between = k * square(totals) - sum(totals) ** 2n; // k·n × sum of squares between
  const unit = 2n ** 104n;
  const residual = quotient(within, n * k * (n - 1n) * unit);
  const variance = quotient(
    between * (n - 1n) - within * (k - 1n),
    n * n * k * (k - 1n) * (n - 1n) * unit,
  );
  return { residual, variance, mean: quotient(sum(totals), k * n * 2n ** 52n) };
}

describe('NIST StRD, one-way analyses of variance with certified values', () => {
  // https://www.itl.nist.gov/div898/strd/anova/SiRstv.html: Ehrstein & Croarkin, unpublished NIST data.
  const SI_RSTV = [
    [196.3052, 196.124, 196.189, 196.2569, 196.3403],
    [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
    [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
    [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
    [196.2119, 196.1051, 196.185, 196.0052, 196.209],
  ];
  // https://www.itl.nist.gov/div898/strd/anova/AtmWtAg.html: Powell, Murphy & Gramlich, J. Research NBS 87, 1982.
  const AG = [
    [
      107.8681568, 107.8681465, 107.8681572, 107.8681785, 107.8681446, 107.8681903, 107.8681526,
      107.8681494, 107.8681616, 107.8681587, 107.8681519, 107.8681486, 107.8681419, 107.8681569,
      107.8681508, 107.8681672, 107.8681385, 107.8681518, 107.8681662, 107.8681424, 107.868136,
      107.8681333, 107.868161, 107.8681477,
    ],
    [
      107.8681079, 107.8681344, 107.8681513, 107.8681197, 107.8681604, 107.8681385, 107.8681642,
      107.8681365, 107.8681151, 107.8681082, 107.8681517, 107.8681448, 107.8681198, 107.8681482,
      107.8681334, 107.8681609, 107.8681101, 107.8681512, 107.8681469, 107.868136, 107.8681254,
      107.8681261, 107.868145, 107.8681368,
    ],
  ];

  it('SiRstv: certified mean squares 1.27865654000000E-02 and 1.08318280000000E-02', () => {
    const { residual, groups } = oneWay(SI_RSTV);
    expect(digits(residual, 1.0831828e-2)).toBeGreaterThan(12);
    expect(digits(groups[0]?.covariance[0], (1.27865654e-2 - 1.0831828e-2) / 5)).toBeGreaterThan(
      11,
    );
  });

  it('AtmWtAg: certified mean squares 3.63834187500000E-09 and 2.28155932971014E-10', () => {
    // 107.868… to seven places: float64 input itself is right to no more than nine digits of these spreads.
    const { residual, groups } = oneWay(AG);
    const between = 3.638341875e-9;
    const within = 2.28155932971014e-10;
    expect(digits(residual, within)).toBeGreaterThan(8);
    expect(digits(groups[0]?.covariance[0], (between - within) / 24)).toBeGreaterThan(8);
    const exact = moments(AG);
    expect(digits(residual, exact.residual)).toBeGreaterThan(12);
    expect(digits(groups[0]?.covariance[0], exact.variance)).toBeGreaterThan(11);
  });
});

describe('one-way layouts built as NIST builds its SmLs series: 9 levels, constant leading digits', () => {
  // Tenths of each level, and of the replicates about it in turn. The truth is that of the float64 values themselves.
  const LEVELS = [4, 3, 5, 4, 2, 6, 3, 7, 4];
  const layout = (leading: number, replicates: number) =>
    LEVELS.map((tenth) =>
      Array.from({ length: replicates }, (_, j) =>
        Number(`${leading}.${tenth + (j === 0 ? 0 : j % 2 === 0 ? 1 : -1)}`),
      ),
    );

  it.each([
    [1, 21],
    [1, 201],
    [1, 2001],
    [1e6, 21],
    [1e6, 201],
    [1e12, 21],
    [1e12, 201],
  ])('leading %d, %d replicates: twelve digits and more', (leading, replicates) => {
    const levels = layout(leading, replicates);
    const exact = moments(levels);
    const { residual, groups, fixed } = oneWay(levels);
    const found = [
      digits(residual, exact.residual),
      digits(groups[0]?.covariance[0], exact.variance),
      digits(fixed[0]?.estimate, exact.mean),
      digits(
        fixed[0]?.se,
        Math.sqrt((replicates * exact.variance + exact.residual) / (9 * replicates)),
      ),
    ];
    expect(Math.min(...found)).toBeGreaterThan(12);
  });

  it('a variance between levels that would be below zero is zero', () => {
    const same = Array.from({ length: 9 }, () => layout(1e6, 21)[0]!);
    const { groups, residual } = oneWay(same);
    expect(groups[0]?.covariance[0]).toBe(0);
    // All 189 rows about one mean: (n − 1) of them within each level are all there is.
    const { residual: within } = moments(same);
    expect(digits(residual, (within * 180) / 188)).toBeGreaterThan(12);
  });
});

describe('NIST StRD, linear regressions: a model without groups', () => {
  // mixed/nist-linear.json says where from. filip (a polynomial of degree 10 on a narrow stretch) is the hardest that
  // NIST has: 16 digits less those that its condition takes leave 7.
  type Set = {
    model: string;
    beta: number[];
    se: number[];
    rsd: number;
    x: number[][];
    y: number[];
  };
  const file = fileURLToPath(new URL('mixed/nist-linear.json', import.meta.url));
  const { sets } = JSON.parse(readFileSync(file, 'utf8')) as { sets: Record<string, Set> };
  const wanted: [string, number][] = [
    ['norris', 12],
    ['pontius', 12],
    ['noint1', 14],
    ['longley', 12],
    ['filip', 7],
    ['wampler4', 8],
  ];

  it.each(wanted)('%s: %d digits and more', (name, least) => {
    const { model, beta, se, rsd, x, y } = sets[name]!;
    const degree = /polynomial degree (\d+)/.exec(model)?.[1];
    const value = (row: number[], j: number) =>
      degree === undefined ? row[j]! : row[0]! ** (j + 1);
    const fit = fitMixed({
      y: Float64Array.from(y),
      intercept: !model.includes('no intercept'),
      fixed: Array.from({ length: Number(degree ?? x[0]!.length) }, (_, j) => ({
        name: `x${j + 1}`,
        values: Float64Array.from(x, (row) => value(row, j)),
      })),
      groups: [],
      method: 'reml',
    });
    expect(digits(Math.sqrt(fit.residual), rsd)).toBeGreaterThan(least);
    for (const [j, { estimate, se: found }] of fit.fixed.entries()) {
      expect(digits(estimate, beta[j]!)).toBeGreaterThan(least);
      expect(digits(found, se[j]!)).toBeGreaterThan(least);
    }
  });
});
