import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';
import type { ShopScore } from '../../packages/labour/tests/simulated/score.ts';
import { summaryOf } from '../../packages/labour/tests/simulated/summary.ts';

const worker = fileURLToPath(new URL('hours-honesty-worker.ts', import.meta.url));

/** FAIRLEAD_SHOPS=20 for a first look: the bars are for all of them, and a cut of few may miss one by chance. */
const CUT = Number(process.env['FAIRLEAD_SHOPS'] ?? Number.POSITIVE_INFINITY);
const SHOPS = Math.min(200, CUT);
const PRIOR_SHOPS = Math.min(100, CUT);

/** Scores shops `from` to `to` in two processes, the odd batches beside the even ones. */
async function scored(from: number, to: number, kind: 'prior' | 'other'): Promise<ShopScore[]> {
  const middle = Math.floor((from + to) / 2);
  const halves = [
    [from, middle],
    [middle, to],
  ].map(async (range) => {
    const { stdout } = await promisify(execFile)(
      process.execPath,
      ['--import', 'tsx', worker, ...range.map(String), kind],
      { maxBuffer: 1 << 28 },
    );
    return JSON.parse(stdout) as ShopScore[];
  });
  return (await Promise.all(halves)).flat();
}

/** Wanted: 77–83 % inside P10–P90, 74–86 % in every fifth of history size, and every rival beaten at P80. */
it(`${SHOPS} simulated shops, twelve months held out`, { timeout: 1_800_000 }, async () => {
  const summary = summaryOf(await scored(1, 1 + SHOPS, 'other'));
  console.info(JSON.stringify(summary, null, 1));
  expect(summary.shops).toBe(SHOPS);
  expect(summary.coverage).toBeGreaterThan(0.77);
  expect(summary.coverage).toBeLessThan(0.83);
  for (const { coverage } of summary.fifths) {
    expect(coverage).toBeGreaterThan(0.74);
    expect(coverage).toBeLessThan(0.86);
  }
  for (const { to } of summary.differences) expect(to).toBeLessThan(0);
});

/** Wanted: 90 % intervals of the access factors hold the truth 85–95 % of the time when it is drawn from the prior. */
it(`access factors of ${PRIOR_SHOPS} shops drawn from the prior`, {
  timeout: 1_800_000,
}, async () => {
  const { accessCovered, accessLevels } = summaryOf(
    await scored(1001, 1001 + PRIOR_SHOPS, 'prior'),
  );
  console.info(`${accessLevels} levels, ${accessCovered} inside`);
  expect(accessCovered).toBeGreaterThan(0.85);
  expect(accessCovered).toBeLessThan(0.95);
});
