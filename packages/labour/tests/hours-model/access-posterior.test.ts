import { describe, expect, it } from 'vitest';
import {
  ACCESS_PRIORS,
  accessPosterior,
  FREE_BENCH,
  fitHours,
  HoursPredictor,
} from '../../src/index.ts';
import { simulatedShop, TRUTH } from './shop.ts';

const NINETY = 1.6448536269514722;

describe('access factors', () => {
  it('without a history are what the table says', () => {
    const factors = accessPosterior(new HoursPredictor(fitHours([])));
    expect(factors).toHaveLength(12);
    for (const { prior, posterior, items } of factors) {
      expect(posterior.factor).toBeCloseTo(prior.factor, 12);
      expect(posterior.from).toBeCloseTo(prior.from, 12);
      expect(posterior.to).toBeCloseTo(prior.to, 12);
      expect(items).toBe(0);
    }
    // By hand from the table: 0.08 + 0.15 + 0.17, three independent increments of 0.15.
    const worst = factors[2]!;
    expect(worst.words).toBe(ACCESS_PRIORS.clearanceMm.steps[2]!.words);
    expect(worst.prior.factor).toBeCloseTo(Math.exp(0.4), 12);
    expect(worst.prior.to).toBeCloseTo(Math.exp(0.4 + NINETY * 0.15 * Math.sqrt(3)), 12);
  });

  it('with one are where the truth is, with the jobs that say so, and narrower', () => {
    const jobs = simulatedShop(21, 800);
    const predictor = new HoursPredictor(fitHours(jobs));
    const factors = accessPosterior(predictor);
    const cramped = factors[1]!;
    expect(cramped.place).toEqual({ clearanceMm: 160 });
    expect(cramped.posterior.from).toBeLessThan(Math.exp(TRUTH.cramped));
    expect(cramped.posterior.to).toBeGreaterThan(Math.exp(TRUTH.cramped));
    const width = ({ from, to }: { from: number; to: number }) => Math.log(to / from);
    expect(width(cramped.posterior)).toBeLessThan(width(cramped.prior) / 5);
    expect(cramped.items).toBe(jobs.filter(({ place }) => place!.clearanceMm === 150).length);
    // Nothing was said of what was not recorded.
    const held = factors.find(({ condition }) => condition === 'held')!;
    expect(held.posterior.factor).toBeCloseTo(held.prior.factor, 12);
    expect(held.items).toBe(0);
    // And it is the factor that an estimate takes.
    const asked = { task: 'Task 1', jasc: '2000', standardHours: 2, mechanics: [] };
    const at = (place: object) => predictor.estimate({ ...asked, place }).p50;
    expect(at(cramped.place) / at(FREE_BENCH)).toBeCloseTo(cramped.posterior.factor, 10);
  });
});
