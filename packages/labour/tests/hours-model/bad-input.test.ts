import { describe, expect, it } from 'vitest';
import { type DoneItem, fitHours, HoursPredictor, type PlannedItem } from '../../src/index.ts';
import { simulatedShop } from './shop.ts';

const done = (over: Partial<DoneItem> = {}): DoneItem => ({
  task: 'Task',
  jasc: '7100',
  standardHours: 2,
  model: 'Model A',
  registration: 'QQ-1',
  mechanics: [{ name: 'Mechanic', share: 1 }],
  hours: 2,
  censored: false,
  ...over,
});

/** Finite quantiles above 0, in order. */
function sound(items: readonly DoneItem[], asked: PlannedItem = done()) {
  const estimate = new HoursPredictor(fitHours(items)).estimate(asked);
  const quantiles = [estimate.p10, estimate.p50, estimate.p80, estimate.p90, estimate.mean];
  expect(quantiles.every((value) => Number.isFinite(value) && value > 0)).toBe(true);
  expect(quantiles.slice(0, 4)).toEqual(quantiles.slice(0, 4).sort((a, b) => a - b));
  return estimate;
}

describe('hours that are none are refused with what they were', () => {
  it.each([
    [0, /above 0; got 0/],
    [-2, /above 0; got -2/],
    [Number.NaN, /got NaN/],
    [Number.POSITIVE_INFINITY, /got Infinity/],
  ])('%s', (hours, sentence) => {
    expect(() => fitHours([done(), done({ hours })])).toThrow(sentence);
    expect(() => fitHours([done({ standardHours: hours })])).toThrow(sentence);
    const predictor = new HoursPredictor(fitHours([done()]));
    expect(() => predictor.estimate(done({ standardHours: hours }))).toThrow(sentence);
  });
});

describe('a share or a place that is none is refused, in what was done and in what is asked', () => {
  it.each<[string, Partial<DoneItem>, string]>([
    ...[-0.1, 1.5, 1e6, Number.NaN, Number.POSITIVE_INFINITY].map(
      (share): [string, Partial<DoneItem>, string] => [
        `a share of ${share}`,
        { mechanics: [{ name: 'Ann', share }] },
        `The share of Ann must be from 0 to 1; got ${share}.`,
      ],
    ),
    ...[-1, Number.NaN, Number.POSITIVE_INFINITY].map(
      (clearanceMm): [string, Partial<DoneItem>, string] => [
        `a clearance of ${clearanceMm}`,
        { place: { clearanceMm } },
        `got ${clearanceMm}.`,
      ],
    ),
    ...[-1, 0.5, Number.NaN].map((lockedFasteners): [string, Partial<DoneItem>, string] => [
      `${lockedFasteners} fasteners`,
      { place: { lockedFasteners } },
      `got ${lockedFasteners}.`,
    ]),
  ])('%s', (_, over, sentence) => {
    expect(() => fitHours([done(), done(over)])).toThrow(sentence);
    const predictor = new HoursPredictor(fitHours([done()]));
    expect(() => predictor.estimate(done(over))).toThrow(sentence);
    expect(() => predictor.estimate(done(over))).toThrow(RangeError);
  });

  it('a share of nothing contributes nothing', () => {
    const beside = { name: 'Bo', share: 0 };
    const alone = [{ name: 'Ann', share: 1 }];
    const { p50 } = sound([done({ mechanics: [...alone, beside], hours: 3 })]);
    expect(p50).toBeCloseTo(sound([done({ mechanics: alone, hours: 3 })]).p50, 6);
  });
});

describe('histories at the edge have an answer', () => {
  it('a million hours beside two: the odd one hardly counts', () => {
    const items = [...Array.from({ length: 20 }, () => done()), done({ hours: 1e6 })];
    expect(sound(items).p50).toBeLessThan(2.3);
    expect(fitHours(items).summary.odd).toBe(1);
  });

  it('one observation of a million hours', () => void sound([done({ hours: 1e6 })]));

  it('the least and the most that a number can hold', () => {
    sound([done({ hours: 5e-324 }), done({ hours: 1.7e308 })]);
    expect(sound([done()], done({ task: 'Other', standardHours: 1e6 })).p50).toBeCloseTo(1e6, -4);
    // A standard so long that its range overflows is refused.
    expect(() => sound([done()], done({ standardHours: 1.7e308 }))).toThrow(RangeError);
  });

  it('one observation moves towards what it says, not all the way', () => {
    const { p50 } = sound([done({ hours: 4 })]);
    expect(p50).toBeGreaterThan(2);
    expect(p50).toBeLessThan(4);
  });

  it('one mechanic: nobody else is faster or slower for it', () => {
    const jobs = simulatedShop(5, 200, { mechanics: 1 });
    const somebody = { ...jobs[0]!, mechanics: [] };
    expect(sound(jobs, somebody).p90).toBeGreaterThan(sound(jobs, jobs[0]!).p90);
  });

  it('all equal: that, with some range all the same', () => {
    const { p10, p50, p90 } = sound(Array.from({ length: 40 }, () => done({ hours: 3 })));
    expect(p50).toBeCloseTo(3, 1);
    expect(p90 / p10).toBeGreaterThan(1.05);
  });

  it('all lower bounds: above what the priors say', () => {
    const bounds = Array.from({ length: 30 }, () => done({ hours: 3, censored: true }));
    expect(sound(bounds).p50).toBeGreaterThan(2.5);
  });

  it('names that only come later: wider than for known ones', () => {
    const jobs = simulatedShop(9, 300);
    const known = jobs[0]!;
    const later: PlannedItem = {
      ...known,
      task: 'New task',
      model: 'New model',
      registration: 'QQ-new',
      mechanics: [{ name: 'New mechanic', share: 1 }],
    };
    expect(sound(jobs, later).predictive.scale).toBeGreaterThan(
      sound(jobs, known).predictive.scale,
    );
  });

  it('tasks that are all done once: the shop is known by them, the next task by the shop', () => {
    // 10^5 of them: many-levels.test.ts.
    const items = Array.from({ length: 1000 }, (_, row) =>
      done({
        task: `Once ${row}`,
        registration: `QQ-${row % 50}`,
        mechanics: [{ name: `Mechanic ${row % 7}`, share: 1 }],
        hours: 3 * Math.exp(0.4 * Math.sin(12.9898 * (row + 1))),
      }),
    );
    const next = sound(items, done({ task: 'The next one' }));
    expect(next.jobs).toBe(0);
    expect(next.p50).toBeGreaterThan(2.7);
    expect(next.p50).toBeLessThan(3.3);
  });

  it('conditions that always come together: their sum is learned, each is left to its prior', () => {
    const jobs = simulatedShop(12, 600).map((job) =>
      job.place!.clearanceMm === 150
        ? { ...job, place: { clearanceMm: 150, held: true, reach: 'arm' as const } }
        : { ...job, place: { clearanceMm: 350, held: false, reach: 'forearm' as const } },
    );
    const predictor = new HoursPredictor(fitHours(jobs));
    const at = (place: PlannedItem['place']) => predictor.estimate({ ...jobs[0]!, place }).p50;
    const together = at({ clearanceMm: 150, held: true, reach: 'arm' });
    const free = at({ clearanceMm: 350, held: false, reach: 'forearm' });
    expect(Math.log(together / free)).toBeGreaterThan(0.35);
    expect(Math.log(together / free)).toBeLessThan(0.65);
    expect(sound(jobs, jobs[0]!).p50).toBeGreaterThan(0);
  });
});
