// The storm of tests/faults/bench-storm.test.ts at full size: 50 telephones, 10,000 events, seed after seed.
// In tests/: npx vitest run --config measure/vitest.config.ts bench-storm. FAIRLEAD_STORM_SEEDS=7,8 throws other dice.
import { afterAll, expect, it } from 'vitest';
import { expectTruth } from '../support/storm/aftermath.ts';
import { clearUp, type Figures, storm } from '../support/storm/storm.ts';

const seeds = (process.env['FAIRLEAD_STORM_SEEDS'] ?? '1,2,3').split(',').map(Number);
const told: Figures[] = [];

it.each(seeds)(
  'storm %i',
  async (seed) => {
    expect(Number.isSafeInteger(seed)).toBe(true);
    const aftermath = await storm({
      seed,
      phones: 50,
      events: 10_000,
      kills: 8,
      drops: 8,
      losses: 2,
    });
    try {
      told.push(aftermath.figures);
      await expectTruth(aftermath);
    } finally {
      await clearUp(aftermath);
    }
  },
  1_200_000,
);

afterAll(() => {
  console.info(told.map((figures) => JSON.stringify(figures)).join('\n'));
});
