import { describe, expect, it } from 'vitest';
import {
  backtest,
  type DatedItem,
  fitHours,
  HoursPredictor,
  packageItems,
  packageOf,
  parseItems,
  RIVALS,
  sumMoments,
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

  it('loses nothing of the items’ covariance in the components that stand for it', () => {
    const parts = packageItems(estimates);
    for (let i = 0; i < 10; i += 1) {
      for (let j = 0; j < i; j += 1) {
        if (asked[i]!.task === asked[j]!.task) continue;
        const exact = estimates[i]!.image.reduce(
          (sum, value, k) => sum + value * estimates[j]!.image[k]!,
          0,
        );
        const loadings = new Map(
          parts[j]!.shared!.map(({ component, loading }) => [component, loading]),
        );
        const kept = parts[i]!.shared!.reduce(
          (sum, { component, loading }) => sum + loading * (loadings.get(component) ?? 0),
          0,
        );
        expect(Math.abs(kept - exact)).toBeLessThan(1e-4);
      }
    }
  });
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
