import { expect, it } from 'vitest';
import { type DoneItem, fitHours, HoursPredictor } from '../../src/index.ts';

// About a minute. How fast the usual shape of 10^5 items is, is measured in tests/measure/hours-speed.ts.
it('10^5 tasks that were all done once: an answer, and the next task is known by the shop alone', () => {
  const job = (task: string, hours: number): DoneItem => ({
    ...{ task, jasc: '7100', standardHours: 2, model: 'Model A', registration: 'QQ-1' },
    ...{ mechanics: [{ name: 'Mechanic', share: 1 }], hours, censored: false },
  });
  const items = Array.from({ length: 100_000 }, (_, row) =>
    job(`Once ${row}`, 3 * Math.exp(0.4 * Math.sin(12.9898 * (row + 1)))),
  );
  const model = fitHours(items);
  expect(model.summary).toMatchObject({ items: 100_000, settled: true });
  expect(model.factors[0]!.levels).toHaveLength(100_000);
  const { p10, p50, p90, jobs } = new HoursPredictor(model).estimate(job('The next one', 1));
  expect(jobs).toBe(0);
  expect(p50).toBeCloseTo(3, 1);
  // A sine between -0.4 and 0.4: its P10 and P90 are at -0.38 and 0.38 of ln hours, s.d. 0.283.
  expect(Math.log(p90 / p10) / 2 / 1.2815515655446004).toBeGreaterThan(0.25);
  expect(Math.log(p90 / p10) / 2 / 1.2815515655446004).toBeLessThan(0.33);
}, 600_000);
