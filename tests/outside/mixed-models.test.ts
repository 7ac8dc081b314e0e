import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  fitMixed,
  type RegressRequest,
  type RegressRow,
  readTable,
  regress,
} from '@fairlead/labour';
import { describe, expect, it } from 'vitest';

// Data: Dyestuff, Penicillin and Pastes: O. L. Davies & P. L. Goldsmith (eds), Statistical Methods in Research and
// Production, 4th ed., 1972. Dyestuff2: simulated, G. E. P. Box & G. C. Tiao, Bayesian Inference in Statistical
// Analysis, 1973. sleepstudy: G. Belenky et al., J. Sleep Research 12, 2003. Machines: J. C. Pinheiro & D. M. Bates,
// Mixed-Effects Models in S and S-PLUS, 2000. cake: F. E. Cook, 1938, in W. G. Cochran & G. M. Cox, Experimental
// Designs, 1957. All as the R packages lme4 and nlme carry them (mixed/lme4.R wrote the files).
const file = (name: string) =>
  readFileSync(fileURLToPath(new URL(`mixed/${name}`, import.meta.url)), 'utf8');
const rowsOf = (name: string): RegressRow[] => readTable(file(`${name}.csv`));

function expectNear(found: number | undefined, wanted: number, within: number, what = ''): void {
  expect(Math.abs((found ?? Number.NaN) - wanted), what).toBeLessThanOrEqual(within);
}

const sleep = (slopes: string[], correlated = true): Omit<RegressRequest, 'rows'> => ({
  response: 'Reaction',
  fixed: ['Days'],
  groups: [{ name: 'Subject', columns: ['Subject'], slopes, correlated }],
});
const dyestuff = { response: 'Yield', groups: [{ name: 'Batch', columns: ['Batch'] }] };

describe('fits that solve the score equations exactly', () => {
  // mixed/exact.json: solved by Newton steps on the score equations in dense float64 arithmetic, apart from this
  // package, from lme4's optimum; its "score" shows how close to zero it came.
  type Levels = Record<string, number>;
  type Exact = {
    method: 'REML' | 'ML';
    varcomp: Levels;
    fixef: Levels;
    se: Levels;
    criterion: number;
    blup: Record<string, Levels | Record<string, Levels>>;
  };
  const { fits } = JSON.parse(file('exact.json')) as { fits: Record<string, Exact> };
  const models: Record<string, [string, Omit<RegressRequest, 'rows'>]> = {
    dyestuff: ['dyestuff', dyestuff],
    penicillin: [
      'penicillin',
      {
        response: 'diameter',
        groups: ['plate', 'sample'].map((name) => ({ name, columns: [name] })),
      },
    ],
    sleepstudy_intercept: ['sleepstudy', sleep([])],
    sleepstudy_uncorrelated: ['sleepstudy', sleep(['Days'], false)],
  };
  const relative = 1e-9;

  it.each(Object.keys(fits))('%s', (id) => {
    const exact = fits[id]!;
    const [data, model] = models[id.split('.')[0]!]!;
    const method = exact.method === 'REML' ? 'reml' : 'ml';
    const fit = regress({ ...model, rows: rowsOf(data), method });
    expectNear(fit.criterion, exact.criterion, 1e-11 * exact.criterion);
    for (const [name, variance] of Object.entries(exact.varcomp)) {
      const [group = '', term = '(Intercept)'] = name.split(' ');
      const found = group === 'Residual' ? fit.residual : fit.variances[group]?.[term];
      expectNear(found, variance, relative * variance, name);
    }
    for (const [name, estimate] of Object.entries(exact.fixef)) {
      expectNear(fit.fixed[name]?.estimate, estimate, relative * Math.abs(estimate), name);
      expectNear(fit.fixed[name]?.se, exact.se[name]!, relative * exact.se[name]!, name);
    }
    for (const [group, terms] of Object.entries(exact.blup)) {
      const nested = Object.values(terms).some((value) => typeof value === 'object');
      const byTerm = (nested ? terms : { '(Intercept)': terms }) as Record<string, Levels>;
      for (const [term, levels] of Object.entries(byTerm)) {
        const sd = Math.sqrt(fit.variances[group]![term]!);
        for (const [level, effect] of Object.entries(levels)) {
          expectNear(fit.effects[group]?.[level]?.[term], effect, relative * sd, level);
        }
      }
    }
  });
});

describe('fits of lme4', () => {
  // mixed/lme4.json: lme4 1.1-31 on R 4.2.2, its optimiser (bobyqa) driven on to a radius of 1e-12. A derivative-free
  // search finds a place only as well as the criterion's rounding shows it: about 1e-7 of a variance.
  type Reference = {
    criterion: number;
    residual: number;
    fixed: Record<string, { estimate: number; se: number }>;
    covariance: Record<string, number[][]>;
    effects: Record<string, Record<string, Record<string, number>>>;
  };
  const { fits } = JSON.parse(file('lme4.json')) as { fits: Record<string, Reference> };
  const group = (...columns: string[]) => ({ name: columns.join(':'), columns });
  const cake = (temperature: string) => ({
    response: 'angle',
    fixed: ['recipe', temperature, `recipe:${temperature}`],
    groups: [group('recipe', 'replicate')],
  });
  const models: Record<string, [string, Omit<RegressRequest, 'rows'>]> = {
    dyestuff2: ['dyestuff2', dyestuff],
    pastes: ['pastes', { response: 'strength', groups: [group('batch'), group('batch', 'cask')] }],
    'sleepstudy correlated': ['sleepstudy', sleep(['Days'])],
    machines: [
      'machines',
      {
        response: 'score',
        fixed: ['Machine'],
        groups: [group('Worker'), group('Worker', 'Machine')],
      },
    ],
    'cake covariate': ['cake', cake('temp')],
    'cake factors': ['cake', cake('temperature')],
  };
  const cases = Object.keys(fits).filter((id) => models[id.slice(0, id.lastIndexOf(' '))]);

  it('are six models, each by REML and by ML', () => {
    expect(cases).toHaveLength(2 * Object.keys(models).length);
  });

  it.each(cases)('%s', (id) => {
    const wanted = fits[id]!;
    const [data, model] = models[id.slice(0, id.lastIndexOf(' '))]!;
    const fit = regress({
      ...model,
      rows: rowsOf(data),
      method: id.endsWith(' ml') ? 'ml' : 'reml',
    });
    expectNear(fit.criterion, wanted.criterion, 1e-10 * wanted.criterion);
    // Never worse than the reference, by more than rounding.
    expect(fit.criterion).toBeLessThan(wanted.criterion + 1e-9);
    expectNear(fit.residual, wanted.residual, 1e-6 * wanted.residual);
    for (const [name, { estimate, se }] of Object.entries(wanted.fixed)) {
      expectNear(fit.fixed[name]?.estimate, estimate, 1e-6 * se, name);
      expectNear(fit.fixed[name]?.se, se, 1e-6 * se, name);
    }
    expect(Object.keys(fit.fixed).sort()).toEqual(Object.keys(wanted.fixed).sort());
    for (const [name, matrix] of Object.entries(wanted.covariance)) {
      const found = fit.variances[name]!;
      const [intercept, ...more] = matrix.map((row, i) => row[i]!);
      expectNear(
        found['(Intercept)'],
        intercept!,
        Math.max(1e-6 * intercept!, 1e-9 * fit.residual),
      );
      if (more.length > 0) {
        expectNear(found['Days'], more[0]!, 1e-6 * more[0]!);
        const covariance = matrix[0]![1]!;
        expectNear(found['covariance'], covariance, 1e-6 * Math.sqrt(intercept! * more[0]!));
      }
      for (const [level, terms] of Object.entries(wanted.effects[name]!)) {
        for (const [term, effect] of Object.entries(terms)) {
          const sd = Math.sqrt(found[term]!);
          expectNear(fit.effects[name]?.[level]?.[term], effect, 1e-6 * sd + 1e-12, level);
        }
      }
    }
  });

  it.each(['reml', 'ml'] as const)('sleepstudy weighted %s', (method) => {
    // Weights made up in mixed/lme4.R: 1 + (row modulo 4) / 2, rows counted from 1.
    const wanted = fits[`sleepstudy weighted ${method}`]!;
    const rows = rowsOf('sleepstudy');
    const subjects = [...new Set(rows.map((row) => String(row['Subject'])))];
    const days = { name: 'Days', values: Float64Array.from(rows, (row) => Number(row['Days'])) };
    const fit = fitMixed({
      y: Float64Array.from(rows, (row) => Number(row['Reaction'])),
      weights: Float64Array.from(rows, (_, index) => 1 + ((index + 1) % 4) / 2),
      fixed: [days],
      groups: [
        {
          name: 'Subject',
          levels: subjects,
          of: Int32Array.from(rows, (row) => subjects.indexOf(String(row['Subject']))),
          slopes: [days],
        },
      ],
      method,
    });
    expectNear(fit.criterion, wanted.criterion, 1e-10 * wanted.criterion);
    expectNear(fit.residual, wanted.residual, 1e-6 * wanted.residual);
    const [group] = fit.groups;
    const [[intercept, covariance], [, slope]] = wanted.covariance['Subject'] as [
      [number, number],
      [number, number],
    ];
    expectNear(group?.covariance[0], intercept, 1e-6 * intercept);
    expectNear(group?.covariance[3], slope, 1e-6 * slope);
    expectNear(group?.covariance[1], covariance, 1e-6 * Math.sqrt(intercept * slope));
    for (const { name, estimate, se } of fit.fixed) {
      expectNear(estimate, wanted.fixed[name]!.estimate, 1e-6 * se);
      expectNear(se, wanted.fixed[name]!.se, 1e-6 * se);
    }
    for (const [l, level] of subjects.entries()) {
      const effect = wanted.effects['Subject']![level]!;
      expectNear(group?.effects[2 * l], effect['(Intercept)']!, 1e-6 * Math.sqrt(intercept));
      expectNear(group?.effects[2 * l + 1], effect['Days']!, 1e-6 * Math.sqrt(slope));
    }
  });

  it('Dyestuff2: the variance between batches is exactly zero, and so is every batch', () => {
    for (const method of ['reml', 'ml'] as const) {
      const fit = regress({ ...dyestuff, rows: rowsOf('dyestuff2'), method });
      expect(fit.variances['Batch']?.['(Intercept)']).toBeLessThanOrEqual(1e-9 * fit.residual);
      for (const batch of Object.values(fit.effects['Batch']!)) {
        expectNear(batch['(Intercept)'], 0, 1e-9);
      }
    }
  });

  it('sleepstudy as printed in Bates, Mächler, Bolker & Walker, J. Stat. Softw. 67(1), 2015', () => {
    const { variances, residual, criterion, fixed } = regress({
      ...sleep(['Days']),
      rows: rowsOf('sleepstudy'),
    });
    const { '(Intercept)': intercept, Days: days, covariance } = variances['Subject']!;
    // Printed: 612.10, 35.07, 654.94. lme4's own optimiser of the time stopped a hundredth before the optimum, which
    // is 612.09 (lme4 driven further says so too, in lme4.json).
    expectNear(intercept, 612.1, 0.0151);
    expect([days!, residual].map((value) => value.toFixed(2))).toEqual(['35.07', '654.94']);
    // Printed there as a correlation of 0.07; 9.60 is the covariance that goes with it.
    expect(covariance!.toFixed(2)).toBe('9.60');
    expect((covariance! / Math.sqrt(intercept! * days!)).toFixed(2)).toBe('0.07');
    expect(criterion.toFixed(3)).toBe('1743.628');
    expect(fixed['(Intercept)']?.estimate.toFixed(3)).toBe('251.405');
    expect(fixed['Days']?.estimate.toFixed(3)).toBe('10.467');
  });
});
