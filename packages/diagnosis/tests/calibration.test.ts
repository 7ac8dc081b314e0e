import { describe, expect, test } from 'vitest';
import { tables } from '../src/index.ts';
import { reliability, widestGap } from './simulated/reliability.ts';
import { type Scenario, scoreShops } from './simulated/shops.ts';

/** A short one; tests/measure/diagnosis-honesty.ts has thousands of findings and people who look badly. */
const scenario: Scenario = {
  shops: 150,
  closed: 60,
  asked: 20,
  alike: 1,
  looks: 0.85,
  checks: 0.3,
  misread: 0,
  hasty: 0,
};
/** With fewer in a bin, chance alone makes five points. */
const ENOUGH = 300;
const symptom = (id: string) => tables.symptoms.find((one) => one.id === id)!;

describe.each(['fluid', 'no_start', 'light'])('simulated shops asked about "%s"', (id) => {
  const scored = scoreShops(symptom(id), scenario, 20261130);

  test('what is said to be likely is so as often as it is said, within 5 points', () => {
    const bins = reliability(scored.said);
    expect(bins.filter(({ count }) => count >= ENOUGH).length).toBeGreaterThanOrEqual(4);
    expect(widestGap(bins, ENOUGH)).toBeLessThan(0.05);
  });

  test('where the data can tell, nine in ten have their cause among the first three', () => {
    expect(scored.tellable).toBeGreaterThan(200);
    expect(scored.amongThree / scored.tellable).toBeGreaterThan(0.9);
  });
});

test('a table that is surer than it should be would be seen', () => {
  const { said } = scoreShops(symptom('light'), scenario, 20261130);
  const boasting = said.map(([p, was]) => [p > 0.5 ? 1 - (1 - p) / 3 : p, was] as const);
  expect(widestGap(reliability(boasting), ENOUGH)).toBeGreaterThan(0.05);
});
