import { describe, expect, it } from 'vitest';
import {
  backtest,
  fitHours,
  HoursPredictor,
  packageItems,
  packageOf,
  quickSumOfItems,
  readModel,
} from '../../src/index.ts';
import { simulatedShop } from './shop.ts';

/** A quote is computed again years later: the same inputs and the same seed have to give the same digits. */
describe('the same digits', () => {
  const items = simulatedShop(14, 300);
  const model = fitHours(items);
  const asked = items.slice(0, 12).map((item) => ({ ...item, mechanics: [] }));
  const text = (value: unknown) => JSON.stringify(value);
  const estimates = (of: typeof model) => {
    const predictor = new HoursPredictor(of);
    return asked.map((item) => predictor.estimate(item));
  };

  it('of a fit, whose inputs stay as they were', () => {
    const frozen = Object.freeze(items.map((item) => Object.freeze({ ...item })));
    expect(text(fitHours(frozen))).toBe(text(model));
    expect(text(fitHours(structuredClone(items)))).toBe(text(model));
  });

  it('of a model that was written and read again, in whatever order it is asked', () => {
    const kept = readModel(JSON.parse(text(model)));
    expect(text(estimates(kept))).toBe(text(estimates(model)));
    const predictor = new HoursPredictor(kept);
    const backwards = asked.toReversed().map((item) => predictor.estimate(item));
    expect(text(backwards.toReversed())).toBe(text(estimates(model)));
  });

  it('of a package with the same seed; of another seed others, but close', () => {
    const one = packageOf(estimates(model), { seed: 5 });
    expect(text(packageOf(estimates(model), { seed: 5 }))).toBe(text(one));
    const other = packageOf(estimates(model), { seed: 6 });
    expect(other.p90).not.toBe(one.p90);
    expect(Math.abs(other.p90 / one.p90 - 1)).toBeLessThan(0.03);
    const quick = () => text(quickSumOfItems(packageItems(estimates(model))));
    expect(quick()).toBe(quick());
  });

  it('of a back-test, with its plain rules', () => {
    const dated = items.map((item, index) => ({
      ...item,
      completedOn: `2025-${String(1 + Math.floor(index / 25)).padStart(2, '0')}-05`,
    }));
    const once = text(backtest(dated));
    expect(text(backtest(structuredClone(dated)))).toBe(once);
    expect(once).toContain('"crps"');
  });
});
