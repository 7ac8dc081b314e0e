import { expect, it } from 'vitest';
import { scoreShop } from './score.ts';
import { simulatedShop } from './shop.ts';
import { summaryOf } from './summary.ts';

// A short cut of tests/measure/hours-honesty.ts, which has the bars: here a dozen small shops, so wide ones.
it('a dozen simulated shops: about as honest as it says, and better than each plain rule', () => {
  const shops = Array.from({ length: 60 }, (_, seed) => simulatedShop(2000 + seed))
    .filter(({ history }) => history.length < 700)
    .slice(0, 12);
  expect(shops).toHaveLength(12);
  const { coverage, under, differences } = summaryOf(shops.map(scoreShop));
  expect(coverage).toBeGreaterThan(0.74);
  expect(coverage).toBeLessThan(0.85);
  expect(under.p80).toBeGreaterThan(0.74);
  expect(under.p80).toBeLessThan(0.85);
  for (const { to } of differences) expect(to).toBeLessThan(0);
}, 180_000);

it('a simulated shop is the same again, and its clock is not always right', () => {
  const shop = simulatedShop(2003);
  expect(simulatedShop(2003)).toEqual(shop);
  expect(simulatedShop(2004).history[0]).not.toEqual(shop.history[0]);
  expect(shop.history.some(({ censored }) => censored)).toBe(true);
  expect(shop.mechanics).toBeGreaterThanOrEqual(5);
  expect(shop.mechanics).toBeLessThanOrEqual(50);
});
