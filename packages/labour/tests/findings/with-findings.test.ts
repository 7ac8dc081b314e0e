import { describe, expect, it } from 'vitest';
import {
  fitHours,
  HoursPredictor,
  type PlannedItem,
  packageItems,
  packageOf,
  packageWithFindings,
} from '../../src/index.ts';
import { simulatedShop } from '../hours-model/shop.ts';

const jobs = simulatedShop(6, 400);
const predictor = new HoursPredictor(fitHours(jobs));
const asked = (task: number, who = 'Mechanic 1'): PlannedItem => ({
  ...jobs.find((job) => job.task === `Task ${task}`)!,
  mechanics: [{ name: who, share: 1 }],
});
const estimates = [1, 2, 3, 4].map((task) => predictor.estimate(asked(task)));
const firm = estimates.slice(0, 2).map((estimate) => ({ estimate }));
const found = (probability: number, parts = 0) => [
  { estimate: estimates[2]!, finding: 'crack', probability, parts },
];
const options = { seed: 4, rate: 1 };

describe('a package with likely findings', () => {
  it('without any is the package', () => {
    const { hours, cost } = packageWithFindings(firm, [], options);
    const plain = packageOf(estimates.slice(0, 2), { seed: 4 });
    for (const figure of ['p10', 'p50', 'mean', 'p80', 'p90'] as const) {
      expect(hours.firm[figure]).toBeCloseTo(plain[figure], 10);
      expect(hours.all[figure]).toBeCloseTo(plain[figure], 10);
      expect(hours.findings[figure]).toBe(0);
      expect(cost.all[figure]).toBeCloseTo(plain[figure], 10);
    }
  });

  it('with a limit on one item costs what a lognormal cut off there costs, its hours as before', () => {
    const [one] = firm;
    const { p50, p90 } = one!.estimate;
    const limit = 100 * p90;
    const free = packageWithFindings([one!], [], { seed: 4, rate: 100 });
    const cut = packageWithFindings([{ ...one!, atMost: limit }], [], { seed: 4, rate: 100 });
    expect(cut.hours).toEqual(free.hours);
    expect(cut.cost.all.p50).toBe(free.cost.all.p50);
    // Its own draws put a hundredth of it about the quantile of the closed form.
    expect(cut.cost.all.p90 / limit).toBeCloseTo(1, 1.5);
    const low = packageWithFindings([{ ...one!, atMost: 50 * p50 }], [], { seed: 4, rate: 100 });
    expect(low.cost.all.p50).toBe(50 * p50);
    expect(low.cost.all.mean).toBeLessThan(50 * p50);
    expect(() => packageWithFindings([{ ...one!, atMost: -1 }], [], options)).toThrow(
      'A price not to be exceeded must be 0 or more; got -1.',
    );
  });

  it('of which every item has a limit below its least never comes to more or less than the limits', () => {
    const { cost } = packageWithFindings(
      firm.map((item) => ({ ...item, atMost: 1e-6 })),
      found(0, 3),
      options,
    );
    for (const figure of ['p10', 'p50', 'mean', 'p90'] as const)
      expect(cost.all[figure]).toBeCloseTo(2e-6, 12);
  });

  it('with one that is certain is the package with it', () => {
    const { hours } = packageWithFindings(firm, found(1), options);
    const plain = packageOf(estimates.slice(0, 3), { seed: 5 });
    for (const figure of ['p10', 'p50', 'p80', 'p90'] as const) {
      expect(hours.all[figure] / plain[figure]).toBeCloseTo(1, 1.5);
    }
    expect(hours.all.mean).toBeCloseTo(plain.mean, 10);
  });

  it('with one that turns up three times in ten has nothing of it seven times in ten', () => {
    const { hours } = packageWithFindings(firm, found(0.3), options);
    expect(hours.findings.p50).toBe(0);
    expect(hours.findings.mean).toBeCloseTo(0.3 * estimates[2]!.mean, 10);
    // P80 of the whole is the P(1 − 0.2/0.3) of the item when it comes: about its P33.
    const alone = packageOf([estimates[2]!], { seed: 1 });
    expect(hours.findings.p80).toBeGreaterThan(alone.p10);
    expect(hours.findings.p80).toBeLessThan(alone.p50);
    expect(hours.all.p90).toBeGreaterThan(hours.firm.p90);
    expect(hours.all.p90).toBeLessThan(hours.firm.p90 + hours.findings.p90);
  });

  it('costs labour at the rate and parts, the parts only when it is found', () => {
    const { cost, hours } = packageWithFindings(
      [{ estimate: estimates[0]!, parts: 100 }],
      found(0.05, 1000),
      { seed: 4, rate: 90 },
    );
    expect(cost.firm.p50).toBeCloseTo(90 * hours.firm.p50 + 100, 6);
    expect(cost.findings.p90).toBe(0);
    expect(cost.all.mean).toBeCloseTo(cost.firm.mean + 0.05 * (90 * estimates[2]!.mean + 1000), 6);
  });

  it('keeps the items of one finding together', () => {
    const pair = (other: string) => [
      ...found(0.15),
      { estimate: estimates[3]!, finding: other, probability: 0.15 },
    ];
    const apart = packageWithFindings([], pair('wear'), options).hours.findings;
    const together = packageWithFindings([], pair('crack'), options).hours.findings;
    expect(together.mean).toBeCloseTo(apart.mean, 10);
    // Apart something turns up with 1 − 0.85² = 0.28, together with 0.15: the P80 tells.
    expect(apart.p80).toBeGreaterThan(0);
    expect(together.p80).toBe(0);
  });

  it('keeps shared what firm and found items share', () => {
    const items = packageItems(estimates.slice(0, 3));
    const shared = items.map(({ shared = [] }) => shared[0]!.loading);
    expect(Math.min(...shared.map((loading) => loading * Math.sign(shared[0]!)))).toBeGreaterThan(
      0,
    );
    const { hours } = packageWithFindings(firm, found(1), { ...options, draws: 100_000 });
    const width = ({ p10, p90 }: { p10: number; p90: number }) => (p90 - p10) ** 2;
    // Independent sums would add their squared widths.
    expect(width(hours.all)).toBeGreaterThan(width(hours.firm) + width(hours.findings));
  });

  it('gives the same digits again', () => {
    expect(packageWithFindings(firm, found(0.3), options)).toEqual(
      packageWithFindings(firm, found(0.3), options),
    );
  });

  it.each([
    [() => packageWithFindings(firm, found(1.2), options), /probability of "crack".*1\.2/],
    [() => packageWithFindings(firm, found(0.2), { seed: 1, rate: -1 }), /rate.*-1/],
    [() => packageWithFindings(firm, found(0.2, Number.NaN), options), /parts.*NaN/],
    [
      () => packageWithFindings(firm, [...found(0.2), ...found(0.3)], options),
      /"crack" has two probabilities, 0\.2 and 0\.3/,
    ],
  ])('refuses what cannot be', (asking, sentence) => {
    expect(asking).toThrow(sentence);
  });
});
