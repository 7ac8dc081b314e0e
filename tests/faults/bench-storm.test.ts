import { expect, it } from 'vitest';
import { expectTruth } from '../support/storm/aftermath.ts';
import { clearUp, storm } from '../support/storm/storm.ts';

// A small one; measure/bench-storm.ts throws 50 telephones and 10,000 events, with several seeds.
it('what telephones say through broken lines, a killed server and a lost database is there once, in order, and adds up', async () => {
  const aftermath = await storm({ seed: 1, phones: 8, events: 600, kills: 1, drops: 2, losses: 1 });
  try {
    await expectTruth(aftermath);
    const { requests, again, reloads } = aftermath.figures;
    // The storm was one: answers were lost and things were sent again.
    expect(requests['cut after']).toBeGreaterThan(10);
    expect(requests.unheard).toBeGreaterThan(10);
    expect(again).toBeGreaterThan(10);
    expect(reloads).toBeGreaterThan(0);
  } finally {
    await clearUp(aftermath);
  }
}, 120_000);
