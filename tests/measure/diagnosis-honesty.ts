import { tables } from '@fairlead/diagnosis';
import { expect, it } from 'vitest';
import { reliability, widestGap } from '../../packages/diagnosis/tests/simulated/reliability.ts';
import { type Scenario, scoreShops } from '../../packages/diagnosis/tests/simulated/shops.ts';

/** FAIRLEAD_SHOPS=20 for a first look: the bars are for all of them, and a cut of few may miss one by chance. */
const SHOPS = Math.min(400, Number(process.env['FAIRLEAD_SHOPS'] ?? Number.POSITIVE_INFINITY));
/** With fewer in a bin, chance alone makes five points. */
const ENOUGH = 400;

const careful: Scenario = {
  shops: SHOPS,
  closed: 120,
  asked: 20,
  alike: 1,
  looks: 0.85,
  checks: 0.3,
  misread: 0,
  hasty: 0,
};
const scenarios: Record<string, Scenario> = {
  'as reckoned': careful,
  'hardly anything closed': { ...careful, closed: 5 },
  'shops twice as unlike the tables': { ...careful, alike: 0.5 },
  'shops twice as alike': { ...careful, alike: 2 },
  'three answers in a hundred wrong': { ...careful, misread: 0.03 },
  'one finding in ten noted in haste': { ...careful, hasty: 0.1 },
};

const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

/**
 * Wanted: within 5 points in each bin with enough, as reckoned; the cause among the first three in 90 % of the findings
 * of which somebody who knew the true tables would have 95 % among three. The other scenarios are reported: there the
 * world is not as the program reckons it.
 */
for (const [name, scenario] of Object.entries(scenarios))
  it(`${SHOPS} simulated shops, each symptom: ${name}`, { timeout: 1_800_000 }, () => {
    const all = tables.symptoms.map((symptom, index) => ({
      symptom: symptom.id,
      ...scoreShops(symptom, { ...scenario, shops: Math.ceil(SHOPS / 3) }, 1 + index),
    }));
    const together = reliability(all.flatMap(({ said }) => said));
    const sum = (of: (one: (typeof all)[number]) => number) =>
      all.reduce((total, one) => total + of(one), 0);
    console.info(
      [
        name,
        ...together.map(
          ({ from, to, count, said, was }) =>
            `  ${from.toFixed(1)}–${to.toFixed(1)}  ${String(count).padStart(7)}  said ${percent(said)}  was ${percent(was)}`,
        ),
        `  widest gap ${percent(widestGap(together, ENOUGH))}; of each symptom alone ${all.map(({ symptom, said }) => `${symptom} ${percent(widestGap(reliability(said), ENOUGH))}`).join(', ')}`,
        `  first of all: ${percent(widestGap(reliability(all.flatMap(({ firsts }) => firsts)), ENOUGH))} widest gap`,
        `  among three where it can be told: ${percent(sum(({ amongThree }) => amongThree) / sum(({ tellable }) => tellable))} of ${sum(({ tellable }) => tellable)}; of all ${percent(sum(({ amongThreeOfAll }) => amongThreeOfAll) / sum(({ findings }) => findings))} of ${sum(({ findings }) => findings)}, knowing the true tables ${percent(sum(({ bestOfAll }) => bestOfAll) / sum(({ findings }) => findings))}`,
      ].join('\n'),
    );
    expect(sum(({ findings }) => findings)).toBeGreaterThan(0);
    if (name !== 'as reckoned') return;
    expect(widestGap(together, ENOUGH)).toBeLessThan(0.05);
    expect(sum(({ amongThree }) => amongThree) / sum(({ tellable }) => tellable)).toBeGreaterThan(
      0.9,
    );
  });
