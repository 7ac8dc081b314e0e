import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type AccessConditions,
  chainHours,
  ESTIMATE_PRIORS,
  type Estimate,
  type EstimateRequest,
  estimate,
  FREE_BENCH,
  type Hours,
  hours,
  type PastJob,
  type Reason,
  summariseShop,
  type TaskHistory,
} from '../src/index.ts';
import { FLAT, updated } from '../src/posterior.ts';
import { deepFreeze } from './freeze.ts';

const jobs = (...values: number[]): PastJob[] => values.map((value) => ({ hours: hours(value) }));
const task = (more: Partial<TaskHistory> = {}): TaskHistory => ({
  task: 'hose',
  jobs: [],
  ...more,
});

function answer(request: EstimateRequest): Estimate {
  const result = estimate(deepFreeze(request));
  if (result.kind !== 'estimate') throw new Error(result.sentence);
  return result;
}
const reason = <Kind extends Reason['kind']>(found: Estimate, kind: Kind) =>
  found.because.find((one): one is Extract<Reason, { kind: Kind }> => one.kind === kind);

const shop = summariseShop([
  { task: 'tyre', standardHours: hours(1), jobs: jobs(1.2, 1.3, 1.1) },
  { task: 'magneto', standardHours: hours(3), jobs: jobs(3.4, 3.9) },
  { task: 'wash', jobs: jobs(0.5, 0.6) },
]);
const cramped: AccessConditions = { clearanceMm: 95, sight: 'feel', held: true };

const someHours = fc.double({ min: 0.05, max: 200, noNaN: true });
const manyHours = fc.array(someHours, { minLength: 2, maxLength: 30 });
const places = fc.constantFrom<AccessConditions | undefined>(undefined, {}, FREE_BENCH, cramped);

describe('prior off: the classical answer', () => {
  it('has quantiles that scale with the hours', () => {
    fc.assert(
      fc.property(manyHours, fc.double({ min: 0.1, max: 10, noNaN: true }), (values, k) => {
        const one = estimate({ task: task({ jobs: jobs(...values) }), prior: 'off' });
        const scaled = estimate({
          task: task({ jobs: jobs(...values.map((value) => value * k)) }),
          prior: 'off',
        });
        if (one.kind !== 'estimate' || scaled.kind !== 'estimate') throw new Error('too little');
        for (const figure of ['p10', 'p50', 'mean', 'p80', 'p90'] as const) {
          expect(scaled[figure] / (one[figure] * k)).toBeCloseTo(1, 9);
        }
      }),
    );
  });

  it('uses neither standard, shop nor place', () => {
    const own = jobs(1, 2, 5);
    const plain = answer({ task: task({ jobs: own }), prior: 'off' });
    const dressed = answer({
      task: task({ jobs: own, standardHours: hours(9), statedFor: FREE_BENCH }),
      place: cramped,
      shop,
      prior: 'off',
    });
    expect(dressed).toEqual(plain);
  });

  it('says what is missing below two finished jobs', () => {
    for (const own of [jobs(), jobs(2), [...jobs(2), { hours: hours(3), censored: true }]]) {
      const result = estimate({ task: task({ jobs: own }), prior: 'off' });
      expect(result).toMatchObject({ kind: 'not-enough-history', needed: 2 });
    }
  });

  it('says so when equal times leave no range', () => {
    const equal = answer({ task: task({ jobs: jobs(2, 2, 2) }), prior: 'off' });
    expect(equal.p90).toBeCloseTo(2, 12);
    expect(reason(equal, 'no-spread')?.sentence).toContain('no range');
  });

  it('answers the example of the docstring', () => {
    expect(answer({ task: task({ jobs: jobs(1, 4) }), prior: 'off' }).p50).toBeCloseTo(2, 12);
  });
});

describe('prior on', () => {
  it('is the standard time, as wide as the priors, for a shop without history', () => {
    const { shopSd, taskSd, jobSd, jobSdDf } = ESTIMATE_PRIORS;
    const found = answer({ task: task({ standardHours: hours(2) }) });
    expect(found.p50).toBeCloseTo(2, 12);
    expect(found.predictive.scale ** 2).toBeCloseTo(shopSd ** 2 + taskSd ** 2 + jobSd ** 2, 12);
    expect(found.predictive.df).toBe(jobSdDf);
    expect(found.mean).toBeCloseTo(2 * Math.exp(jobSd ** 2 / 2), 12);
    expect(found.jobs).toBe(0);
  });

  it('shrinks the shop towards the standard by the weights of its tasks', () => {
    // By hand: one other task with one job at twice its standard; s0 = 0.4 since one job has no spread.
    const one = summariseShop([{ task: 'tyre', standardHours: hours(1), jobs: jobs(2) }]);
    const weight = 1 / (0.3 ** 2 + 0.4 ** 2);
    const expected = (weight * Math.log(2)) / (weight + 1 / 0.2 ** 2);
    const found = answer({ task: task({ standardHours: hours(2) }), shop: one });
    expect(reason(found, 'shop')?.factor).toBeCloseTo(Math.exp(expected), 12);
    expect(reason(found, 'shop')).toMatchObject({ tasks: 1, jobs: 1 });
  });

  it('does not count a task among the others that it is compared with', () => {
    const own = task({ standardHours: hours(2), jobs: jobs(9, 9, 9) });
    const found = answer({ task: own, shop: summariseShop([own]) });
    expect(reason(found, 'shop')?.factor).toBe(1);
  });

  it('starts from the shop median without a standard time, and leans on it little', () => {
    const found = answer({ task: task({ jobs: jobs(4) }), shop });
    expect(reason(found, 'shop-median')).toMatchObject({ hours: 1.2, jobs: 7 });
    expect(found.p50).toBeGreaterThan(3);
    expect(found.p50).toBeLessThan(4);
  });

  it('stands on its own times where there is nothing else, and says what is missing without them', () => {
    const found = answer({ task: task({ jobs: jobs(3) }) });
    expect(found.p50).toBeCloseTo(3, 12);
    expect(found.predictive.scale).toBeCloseTo(0.4 * Math.SQRT2, 12);
    expect(estimate({ task: task() })).toMatchObject({ kind: 'not-enough-history', needed: 1 });
  });

  it('believes the task itself once it has been done often', () => {
    const often = Array.from({ length: 40 }, (_, i) => 4.5 + (i % 5) / 4);
    const found = answer({ task: task({ standardHours: hours(2), jobs: jobs(...often) }), shop });
    expect(found.p50).toBeGreaterThan(4.7);
    expect(found.p90 / found.p10).toBeLessThan(2);
  });

  it('gives reasons that multiply to the P50, in any mixture of what is known', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ value: someHours, found: places }), { maxLength: 20 }),
        fc.option(someHours, { nil: undefined }),
        places,
        places,
        fc.boolean(),
        (past, standard, statedFor, place, withShop) => {
          const result = estimate({
            task: task({
              standardHours: standard === undefined ? undefined : hours(standard),
              statedFor,
              jobs: past.map(({ value, found }) => ({ hours: hours(value), found })),
            }),
            place,
            shop: withShop ? shop : undefined,
          });
          if (result.kind !== 'estimate') return;
          expect(Math.abs(chainHours(result.because) / result.p50 - 1)).toBeLessThan(1e-12);
          expect(result.p10).toBeLessThan(result.p50);
          expect(result.p50).toBeLessThan(result.p80);
          expect(result.p80).toBeLessThan(result.p90);
          const shared = result.shared.reduce((sum, { loading }) => sum + loading ** 2, 0);
          expect(shared).toBeLessThan(result.predictive.scale ** 2);
        },
      ),
    );
  });

  it('does not care in which order the jobs came', () => {
    const past = fc.array(fc.record({ value: someHours, found: places }), {
      minLength: 2,
      maxLength: 15,
    });
    const shuffled = past.chain((all) =>
      fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length })),
    );
    fc.assert(
      fc.property(shuffled, ([one, other]) => {
        const figures = (list: typeof one) =>
          estimate({
            task: task({
              standardHours: hours(2),
              statedFor: FREE_BENCH,
              jobs: list.map(({ value, found }) => ({ hours: hours(value), found })),
            }),
            place: cramped,
            shop,
          });
        expect(figures(other)).toEqual(figures(one));
      }),
    );
  });

  it('narrows with every job that agrees', () => {
    const widths = [0, 1, 2, 4, 8, 16, 32].map((n) => {
      const own = jobs(...Array.from({ length: n }, () => 2));
      const { p10, p90, p50 } = answer({ task: task({ standardHours: hours(2), jobs: own }) });
      expect(p50).toBeCloseTo(2, 12);
      return Math.log(p90 / p10);
    });
    expect([...widths].sort((a, b) => b - a)).toEqual(widths);
    expect(new Set(widths).size).toBe(widths.length);
  });

  it('lengthens for a place worse than the standard was stated for, and only then', () => {
    const own = task({ standardHours: hours(2), statedFor: FREE_BENCH });
    const here = answer({ task: own, place: cramped });
    expect(here.p50).toBeCloseTo(2 * Math.exp(0.4 + 0.25 + 0.18), 12);
    expect(reason(here, 'place')?.parts.map(({ condition }) => condition)).toEqual([
      'clearanceMm',
      'sight',
      'held',
    ]);
    const bench = answer({ task: own, place: FREE_BENCH });
    expect(here.predictive.scale).toBeGreaterThan(bench.predictive.scale);
    expect(answer({ task: { ...own, statedFor: cramped }, place: cramped }).p50).toBeCloseTo(2, 12);
    expect(answer({ task: task({ standardHours: hours(2) }), place: cramped }).p50).toBeCloseTo(
      2,
      12,
    );
  });

  it('brings jobs done elsewhere to the place asked for', () => {
    const onBench: PastJob[] = Array.from({ length: 200 }, () => ({
      hours: hours(1),
      found: FREE_BENCH,
    }));
    const found = answer({ task: task({ jobs: onBench }), place: { ...FREE_BENCH, held: true } });
    expect(found.p50).toBeCloseTo(Math.exp(0.18), 12);
  });

  it('owes the access priors nothing after many jobs in the same place', () => {
    const there: PastJob[] = Array.from({ length: 400 }, (_, i) => ({
      hours: hours(3 + (i % 2)),
      found: cramped,
    }));
    const own = task({ standardHours: hours(1), statedFor: FREE_BENCH, jobs: there });
    const access = (place: AccessConditions) =>
      answer({ task: own, place })
        .shared.filter(({ component }) => component.startsWith('access:'))
        .reduce((sum, { loading }) => sum + loading ** 2, 0);
    expect(access(cramped)).toBeLessThan(1e-4);
    expect(access(FREE_BENCH)).toBeGreaterThan(0.09);
    expect(answer({ task: own, place: cramped }).p50).toBeCloseTo(Math.sqrt(12), 1);
  });

  it('leaves lower bounds out of the fit and says how many', () => {
    const own = jobs(2, 3);
    const bounds: PastJob[] = [1, 50].map((value) => ({ hours: hours(value), censored: true }));
    const without = answer({ task: task({ standardHours: hours(2), jobs: own }), shop });
    const beside = answer({
      task: task({ standardHours: hours(2), jobs: [...own, ...bounds] }),
      shop,
    });
    expect(beside.predictive).toEqual(without.predictive);
    expect(reason(beside, 'censored-left-out')).toMatchObject({ jobs: 2 });
    expect(reason(beside, 'censored-left-out')?.sentence).toContain('lower bound');
  });

  it('refuses hours that have no logarithm', () => {
    for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => hours(value)).toThrow(RangeError);
      const bad = value as Hours;
      expect(() => estimate({ task: task({ jobs: [{ hours: bad }] }) })).toThrow(RangeError);
      expect(() => estimate({ task: task({ standardHours: bad }) })).toThrow(RangeError);
      expect(() => summariseShop([task({ jobs: [{ hours: bad }] })])).toThrow(RangeError);
    }
  });

  it('refuses a spread too wide to state in hours', () => {
    const apart = task({ jobs: jobs(1e-300, 1e300) });
    expect(() => estimate({ task: apart, prior: 'off' })).toThrow(RangeError);
  });

  it('refuses a task that comes twice in the shop', () => {
    expect(() => summariseShop([task(), task()])).toThrow('comes twice');
    expect(summariseShop([]).jobs).toBe(0);
  });
});

describe('normal–inverse-gamma update', () => {
  it('gives the same in two steps as in one', () => {
    fc.assert(
      fc.property(manyHours, manyHours, (first, second) => {
        const prior = { location: 0.5, kappa: 0.7, sd: 0.4, df: 6 };
        const once = updated([...first, ...second].map(Math.log), prior);
        const twice = updated(second.map(Math.log), updated(first.map(Math.log), prior));
        expect(twice.location).toBeCloseTo(once.location, 10);
        expect(twice.sd).toBeCloseTo(once.sd, 10);
        expect([twice.kappa, twice.df]).toEqual([once.kappa, once.df]);
      }),
    );
  });

  it('is the sample itself under the flat prior', () => {
    expect(updated([0, 2], FLAT)).toMatchObject({ location: 1, sd: Math.SQRT2, df: 1, kappa: 2 });
    expect(() => updated([1], FLAT)).toThrow('at least 2 jobs');
  });
});
