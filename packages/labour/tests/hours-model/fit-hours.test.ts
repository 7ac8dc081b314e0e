import { describe, expect, it, vi } from 'vitest';
import {
  type AccessConditions,
  type DoneItem,
  fitHours,
  HOURS_PRIORS,
  type HoursModel,
  HoursPredictor,
  normalStretch,
  type PlannedItem,
  readModel,
} from '../../src/index.ts';
import { simulatedShop, TRUTH } from './shop.ts';

// Fits of thousands of jobs, on machines that do other things beside.
vi.setConfig({ testTimeout: 60_000 });

const asked = (over: Partial<PlannedItem> = {}): PlannedItem => ({
  task: 'New task',
  standardHours: 1,
  mechanics: [],
  place: {},
  ...over,
});
const spread = (model: HoursModel, name: string) =>
  (model.factors.find(({ factor }) => factor === name)?.relative ?? Number.NaN) *
  Math.exp(model.lnSigma);
const middle = (items: readonly DoneItem[], item: PlannedItem) =>
  new HoursPredictor(fitHours(items)).estimate(item).p50;

describe('from priors alone', () => {
  const predictor = new HoursPredictor(fitHours([]));
  const at = (place: AccessConditions) => predictor.estimate(asked({ place })).p50;

  it('a standard time is what it says, give or take', () => {
    const { p10, p50, p80, p90, jobs } = predictor.estimate(asked({ standardHours: 2 }));
    expect(p50).toBeCloseTo(2, 12);
    expect([p10 < p50, p50 < p80, p80 < p90, jobs]).toEqual([true, true, true, 0]);
  });

  // Common practice, no source: about 150 mm between firewall and engine, an alignment held against a
  // spring-loaded pin, and lockwire to finish make a bench job several times longer in place.
  it('the full place comes out 2 to 3 times the free bench, each condition adding', () => {
    const conditions: AccessConditions[] = [
      { clearanceMm: 150 },
      { sight: 'mirror' },
      { reach: 'arm' },
      { swingDeg: 20 },
      { held: true },
      { lockedFasteners: 2 },
    ];
    let place: AccessConditions = {};
    let before = at(place);
    for (const condition of conditions) {
      place = { ...place, ...condition };
      const now = at(place);
      expect(now).toBeGreaterThan(before);
      before = now;
    }
    expect(before).toBeGreaterThan(2);
    expect(before).toBeLessThan(3);
  });

  it.each([
    ['costs nothing', 0, 1.12],
    ['costs far more', 1.2, 2.4],
  ])('a history in which the place %s overrules them', (_, cramped, factor) => {
    const items = simulatedShop(11, 600, { cramped });
    const model = new HoursPredictor(fitHours(items));
    const ratio =
      model.estimate(asked({ place: { clearanceMm: 150 } })).p50 /
      model.estimate(asked({ place: { clearanceMm: 350 } })).p50;
    if (cramped === 0) expect(ratio).toBeLessThan(factor);
    else expect(ratio).toBeGreaterThan(factor);
  });
});

describe('a simulated shop', () => {
  const items = Object.freeze(simulatedShop(3, 2000).map((item) => Object.freeze(item)));
  const model = fitHours(items);

  it('is found again: who differs, by how much, and what the place costs', () => {
    expect(spread(model, 'taskWithStandard')).toBeGreaterThan(TRUTH.task * 0.75);
    expect(spread(model, 'taskWithStandard')).toBeLessThan(TRUTH.task * 1.33);
    expect(spread(model, 'mechanic')).toBeGreaterThan(TRUTH.mechanic * 0.5);
    expect(spread(model, 'mechanic')).toBeLessThan(TRUTH.mechanic * 1.8);
    expect(spread(model, 'registration')).toBeLessThan(0.13);
    expect(Math.exp(model.lnSigma) * model.stretch).toBeCloseTo(TRUTH.job, 1);
    const predictor = new HoursPredictor(model);
    const ratio =
      predictor.estimate(asked({ place: { clearanceMm: 150 } })).p50 /
      predictor.estimate(asked({ place: { clearanceMm: 350 } })).p50;
    expect(Math.log(ratio)).toBeCloseTo(TRUTH.cramped, 1);
  });

  it('gives the same digits again, and from what was written down', () => {
    expect(fitHours(items)).toEqual(model);
    const read = readModel(JSON.parse(JSON.stringify(model)));
    const item = asked({ ...items[0], task: 'Task 3' });
    expect(new HoursPredictor(read).estimate(item)).toEqual(
      new HoursPredictor(model).estimate(item),
    );
  });

  it('begins where a former fit ended, and ends at the same place', () => {
    const again = fitHours(items, { former: model });
    expect(again.summary.rounds).toBeLessThanOrEqual(model.summary.rounds);
    const item = asked({ task: 'Task 3' });
    const one = new HoursPredictor(model).estimate(item).p80;
    expect(new HoursPredictor(again).estimate(item).p80 / one).toBeCloseTo(1, 3);
  });

  it('explains itself: the steps multiply to the median', () => {
    const { p50, steps, jobs } = new HoursPredictor(model).estimate({ ...items[5]! });
    expect(steps.map(({ kind }) => kind)).toEqual([
      'start',
      'shop',
      'place',
      'mechanic',
      'aircraft',
    ]);
    expect(steps.reduce((product, { factor }) => product * factor, 1) / p50).toBeCloseTo(1, 10);
    expect(jobs).toBe(items.filter(({ task }) => task === items[5]!.task).length);
  });

  it('knows less of what it has not seen', () => {
    const predictor = new HoursPredictor(model);
    const width = (item: PlannedItem) => predictor.estimate(item).predictive.scale;
    const known = { ...items[5]! };
    expect(width({ ...known, task: 'Never done' })).toBeGreaterThan(width(known));
    expect(width({ ...known, mechanics: [] })).toBeGreaterThan(width(known));
    expect(width({ ...known, registration: 'QQ-new' })).toBeGreaterThan(width(known));
  });
});

describe('what is odd', () => {
  const items = simulatedShop(5, 400);
  const item = { ...items[0]! };

  it('a clock left running barely moves the estimate, and is counted as odd', () => {
    const wrong = items.map((one, index) =>
      index === 0 ? { ...one, hours: one.hours * 40 } : one,
    );
    const before = middle(items.slice(1), item);
    expect(middle(wrong, item) / before).toBeGreaterThan(0.97);
    expect(middle(wrong, item) / before).toBeLessThan(1.03);
    expect(fitHours(wrong).summary.odd).toBeGreaterThan(0);
  });

  it('a lower bound far above pulls up, one far below says nothing', () => {
    const bound = (hours: number): DoneItem[] => [
      ...items,
      ...Array.from({ length: 5 }, () => ({ ...item, hours, censored: true })),
    ];
    const before = middle(items, item);
    expect(middle(bound(before * 3), item)).toBeGreaterThan(before * 1.05);
    expect(middle(bound(before / 20), item) / before).toBeCloseTo(1, 2);
  });

  it('shares count by their size', () => {
    const shared = items.map((one) => ({
      ...one,
      mechanics: [
        { name: one.mechanics[0]!.name, share: 0.999 },
        { name: 'Helper', share: 0.001 },
      ],
    }));
    expect(middle(shared, item) / middle(items, item)).toBeCloseTo(1, 2);
  });
});

describe('at the edges', () => {
  const done = (over: Partial<DoneItem> = {}): DoneItem => ({
    ...asked({ task: 'Task' }),
    hours: 2,
    censored: false,
    ...over,
  });

  it.each<[string, DoneItem[]]>([
    ['one job', [done()]],
    ['jobs that all took the same', Array.from({ length: 30 }, () => done())],
    ['nothing but lower bounds', Array.from({ length: 5 }, () => done({ censored: true }))],
    ['one mechanic', simulatedShop(1, 60, { mechanics: 1 })],
    [
      'no standard times',
      simulatedShop(2, 60).map((one) => ({ ...one, standardHours: undefined })),
    ],
    [
      'nothing recorded but the task',
      simulatedShop(2, 60).map(({ task, hours, censored }) => ({
        task,
        hours,
        censored,
        mechanics: [],
      })),
    ],
    ['a thousandth of an hour beside a thousand', [done({ hours: 0.001 }), done({ hours: 1000 })]],
  ])('%s: a finite answer', (_, items) => {
    const { p10, p50, p90 } = new HoursPredictor(fitHours(items)).estimate(asked({ task: 'Task' }));
    expect([p10, p50, p90].every((value) => Number.isFinite(value) && value > 0)).toBe(true);
    expect(p10).toBeLessThan(p50);
    expect(p50).toBeLessThan(p90);
  });

  it.each([0, -1, Number.NaN, Infinity])('refuses %s hours', (hours) => {
    expect(() => fitHours([done({ hours })])).toThrow(/Hours must be a finite number above 0/);
  });

  it('asks for the standard that a task was last seen with', () => {
    const model = fitHours([done({ standardHours: 3, hours: 3 })]);
    const { standardHours: _, ...without } = asked({ task: 'Task' });
    expect(new HoursPredictor(model).estimate(without).steps[0]).toMatchObject({
      words: 'standard',
      factor: 3,
    });
  });

  it('refuses a model that is damaged or of another version', () => {
    expect(() => readModel({})).toThrow(/not a fitted model/);
    expect(() => readModel({ version: 'older' })).toThrow(/version older/);
    expect(() => readModel({ ...fitHours([]), rows: undefined })).toThrow(/it has no rows/);
  });

  // For ν → ∞ the Student-t is the normal; for ν = 5 the value follows from the defining equation.
  it('knows what a Student-t makes of normal errors', () => {
    expect(normalStretch(Infinity)).toBe(1);
    expect(normalStretch(1e6)).toBeCloseTo(1, 4);
    expect(normalStretch(5)).toBeGreaterThan(1.1);
    expect(normalStretch(5)).toBeLessThan(1.3);
    expect(HOURS_PRIORS.robustDf).toBe(5);
  });
});
