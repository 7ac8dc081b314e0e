import { describe, expect, it } from 'vitest';
import {
  backtest,
  type DatedItem,
  fitHours,
  HoursPredictor,
  packageItems,
  packageOf,
  parseItems,
  quickSumOfItems,
  RIVALS,
  sumMoments,
  sumOfItems,
} from '../../src/index.ts';
import { simulatedShop } from './shop.ts';

const day = (index: number, all: number) =>
  new Date(Date.UTC(2024, 0, 1) + Math.floor((index * 420) / all) * 86_400_000)
    .toISOString()
    .slice(0, 10);

describe('back-test', () => {
  const jobs = simulatedShop(8, 700).map(
    (item, index): DatedItem => ({ ...item, completedOn: day(index, 700) }),
  );
  const result = backtest(jobs);

  it('predicts each month from what was known at its start', () => {
    expect(result.months.map(({ month }) => month).at(0)).toBe('2024-04');
    expect(result.items).toBe(jobs.filter(({ completedOn }) => completedOn >= '2024-04').length);
    expect(result.pit.reduce((sum, count) => sum + count, 0)).toBe(result.items);
    // A future that changes leaves the past's predictions alone.
    const half = jobs.filter(({ completedOn }) => completedOn < '2024-08');
    expect(backtest(half).months).toEqual(result.months.slice(0, 4));
  }, 60_000);

  it('is about as honest as it says, and better at P80 than each plain rule', () => {
    expect(result.coverage).toBeGreaterThan(0.72);
    expect(result.coverage).toBeLessThan(0.88);
    expect(result.rivals.map(({ rival }) => rival)).toEqual(RIVALS);
    for (const { difference80, items } of result.rivals) {
      expect(items).toBeGreaterThan(0);
      expect(difference80.mean).toBeLessThan(0);
    }
    expect(result.verdict).toContain('The model');
  });

  it('scores each plain rule whole, beside the model on the same jobs', () => {
    for (const { rival, items, crps, modelCrps, pit, pinball } of result.rivals) {
      expect(pit!.reduce((sum, count) => sum + count, 0)).toBeCloseTo(items, 9);
      expect(modelCrps!, rival).toBeLessThan(crps!);
      // CRPS is twice the mean loss over all levels: of the order of the losses, and above the one at P90 alone.
      expect(crps!).toBeGreaterThan(pinball.p90);
      expect(crps!).toBeLessThan(4 * pinball.p50);
    }
    // Where the rival could say something of every job, the model's score on the same jobs is its score.
    const standard = result.rivals.find(({ rival }) => rival === 'standard')!;
    expect(standard.items).toBe(result.items);
    expect(standard.modelCrps).toBeCloseTo(result.crps!, 12);
  });

  it('comes apart by task, mechanic and model, each with all scores', () => {
    for (const slices of [result.byTask, result.byMechanic, result.byModel]) {
      expect(slices.reduce((sum, { items }) => sum + items, 0)).toBe(result.items);
      const mean = (of: (slice: (typeof slices)[number]) => number) =>
        slices.reduce((sum, slice) => sum + slice.items * of(slice), 0) / result.items;
      expect(mean(({ coverage }) => coverage!)).toBeCloseTo(result.coverage!, 10);
      expect(mean(({ crps }) => crps!)).toBeCloseTo(result.crps!, 10);
      expect(mean(({ pinball }) => pinball.p90)).toBeCloseTo(result.pinball.p90, 10);
      expect(slices.map(({ items }) => items)).toEqual(
        slices.map(({ items }) => items).sort((a, b) => b - a),
      );
      expect(slices[0]!.pit).toHaveLength(10);
      expect(slices[0]!.rivals.map(({ rival }) => rival)).toEqual(RIVALS);
    }
    const one = result.byModel[0]!;
    const same = jobs.filter(
      ({ model, completedOn }) => model === one.key && completedOn >= '2024-04',
    );
    expect(one.items).toBe(same.length);
  });

  it('predicts for the place as planned, and learns from it as found', () => {
    const planned = { clearanceMm: 350 };
    const surprised = backtest(jobs.map((job) => ({ ...job, planned })));
    // Places that are found cramped were to be open: now more jobs take longer than P80.
    expect(surprised.under80!).toBeLessThan(result.under80! - 0.05);
    const known = backtest(jobs.map((job) => ({ ...job, planned: job.place })));
    expect(known.crps).toBe(result.crps);
  }, 60_000);

  it('says that there is too little, and scores no lower bound', () => {
    expect(backtest([])).toMatchObject({ items: 0, coverage: undefined, crps: undefined });
    expect(backtest([]).verdict).toContain('Too few');
    const bounds = jobs
      .slice(0, 250)
      .map((item) => ({ ...item, censored: item.completedOn >= '2024-04' }));
    expect(backtest(bounds).items).toBe(0);
    expect(() => backtest([{ ...jobs[0]!, completedOn: '9 March' }])).toThrow(/ISO 8601/);
  }, 60_000);
});

describe('a package', () => {
  const items = simulatedShop(4, 500);
  const predictor = new HoursPredictor(fitHours(items));
  const asked = items
    .slice(0, 30)
    .map((item) => ({ ...item, mechanics: [{ name: 'Mechanic 1', share: 1 }] }));
  const estimates = asked.map((item) => predictor.estimate(item));

  it('keeps what is shared shared: mean and spread of its sum are those of the exact moments', () => {
    const exact = sumMoments(packageItems(estimates));
    const { p50, p90, sumOfP80, p80, mean } = packageOf(estimates, { seed: 3 });
    // Fenton–Wilkinson: one log-normal with the sum's two moments (Fenton 1960).
    expect(Math.abs(p50 / Math.exp(exact.location) - 1)).toBeLessThan(0.01);
    expect(
      Math.abs(p90 / Math.exp(exact.location + 1.2815515655446004 * exact.scale) - 1),
    ).toBeLessThan(0.01);
    expect(mean / exact.mean).toBeCloseTo(1, 10);
    expect(sumOfP80).toBeGreaterThan(p80);
  });

  it('loses hardly anything of the covariance in the components that stand for it', () => {
    const parts = packageItems(estimates);
    const kept = sumMoments(parts).variance;
    let exact = 0;
    for (const one of estimates) {
      for (const other of estimates) {
        let covariance = one === other ? one.predictive.scale ** 2 : 0;
        if (one !== other) {
          for (const [k, value] of one.image.entries()) covariance += value * other.image[k]!;
        }
        exact += one.mean * other.mean * Math.expm1(covariance);
      }
    }
    expect(Math.abs(kept / exact - 1)).toBeLessThan(0.015);
    expect(parts[0]!.shared!.length).toBeLessThan(estimates.length);
  });

  it('without simulation has the quantiles of the simulation', () => {
    const items = packageItems(estimates);
    const quick = quickSumOfItems(items);
    const drawn = sumOfItems(items, { seed: 9, draws: 100_000 });
    for (const figure of ['p10', 'p50', 'p80', 'p90'] as const) {
      expect(Math.abs(quick[figure] / drawn[figure] - 1)).toBeLessThan(0.005);
    }
    expect(quick.mean).toBeCloseTo(drawn.mean, 10);
    expect(quick.sumOfP80).toBe(drawn.sumOfP80);
  }, 30_000);
});

describe('a file of items', () => {
  const header =
    'id,task,jasc,standard_hours,model,registration,mechanic,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';

  it('is read, blanks being unknown', () => {
    const { items, refused } = parseItems(
      `${header}\n1,Hose,2800,1.5,M,QQ-1,A:0.6;B:0.4,150,mirror,,arm,,1,2\n2,Belt,,,,,,,,,,,,\n`,
    );
    expect(refused).toEqual([]);
    expect(items[0]).toMatchObject({
      id: '1',
      standardHours: 1.5,
      place: { clearanceMm: 150, sight: 'mirror', reach: 'arm', held: true, lockedFasteners: 2 },
    });
    expect(items[0]!.mechanics).toHaveLength(2);
    expect(items[1]).toMatchObject({
      id: '2',
      task: 'Belt',
      standardHours: undefined,
      mechanics: [],
    });
  });

  it.each([
    ['', 'is a missing column'],
    [`${header},hours\n`, 'is not a known column'],
    [`${header}\n1,Hose,28,,,,,,,,,,,\n`, 'four digits'],
    [`${header}\n1,Hose,,,,,,,dark,,,,,\n`, 'is not one of direct, mirror, feel'],
    [`${header}\n1,Hose,,,,,,,,,,,,\n1,Belt,,,,,,,,,,,,\n`, 'comes twice'],
    [`${header}\n,Hose,,,,,,,,,,,,\n`, 'is blank'],
    [`${header}\n1,,,,,,,,,,,,,\n`, 'is blank'],
    [`${header}\n"1,Hose\n`, 'is not CSV'],
  ])('is refused with what is wrong: %j', (text, problem) => {
    const { items, refused } = parseItems(text);
    expect(items).toEqual([]);
    expect(refused.map((one) => one.problem).join()).toContain(problem);
  });
});
