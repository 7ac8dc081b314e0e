import { FREE_BENCH, fitHours, HoursPredictor, packageOf } from '@fairlead/labour';
import { expect, it } from 'vitest';

/** Wanted: 150 items and 20,000 draws in 200 ms or less. Prints wall and processor time, best and median of nine. */
it('a package of 150 items', () => {
  const predictor = new HoursPredictor(fitHours([]));
  const items = Array.from({ length: 150 }, (_, index) =>
    predictor.estimate({
      task: `task ${index % 60}`,
      standardHours: 0.5 + (index % 7),
      mechanics: [],
      statedFor: FREE_BENCH,
    }),
  );
  packageOf(items, { seed: 1 });
  const runs = Array.from({ length: 9 }, (_, seed) => {
    const processor = process.cpuUsage();
    const wall = performance.now();
    const { p50 } = packageOf(items, { seed });
    expect(p50).toBeGreaterThan(0);
    return { wall: performance.now() - wall, processor: process.cpuUsage(processor).user / 1000 };
  });
  const middle = (of: 'wall' | 'processor') => {
    const sorted = runs.map((run) => run[of]).sort((one, other) => one - other);
    return `best ${sorted[0]?.toFixed(0)} ms, median ${sorted[4]?.toFixed(0)} ms`;
  };
  console.info(
    `sum of 150 items, 20,000 draws: wall ${middle('wall')}; processor ${middle('processor')}`,
  );
});
