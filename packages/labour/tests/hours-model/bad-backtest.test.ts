import { describe, expect, it } from 'vitest';
import { backtest, type DatedItem, RIVALS } from '../../src/index.ts';

/** A year of one task by one mechanic on one aircraft, ten jobs a month, but for what is said otherwise. */
const year = (over: (index: number) => Partial<DatedItem> = () => ({})): DatedItem[] =>
  Array.from({ length: 120 }, (_, index) => ({
    ...{ task: 'Task', jasc: '7100', standardHours: 2, model: 'Model A', registration: 'QQ-1' },
    ...{ mechanics: [{ name: 'Mechanic', share: 1 }], censored: false },
    completedOn: `2025-${String(1 + Math.floor(index / 10)).padStart(2, '0')}-10`,
    hours: 2 * Math.exp(0.3 * Math.sin(12.9898 * (index + 1))),
    ...over(index),
  }));
const one = (at: number, what: Partial<DatedItem>) => year((index) => (index === at ? what : {}));

/** Every figure that is stated is a finite number, and tenths add up. */
function sound(items: readonly DatedItem[]) {
  const result = backtest(items);
  const { pinball, rivals, pit } = result;
  const figures = [...Object.values(pinball), ...pit];
  for (const {
    pinball: theirs,
    model,
    crps = 0,
    modelCrps = 0,
    difference80,
    ...rival
  } of rivals) {
    figures.push(...Object.values(theirs), ...Object.values(model), crps, modelCrps);
    figures.push(...Object.values(difference80));
    const tenths = rival.pit ?? [];
    expect(tenths.reduce((sum, count) => sum + count, 0)).toBeCloseTo(rival.items, 9);
  }
  expect(figures.filter((figure) => !Number.isFinite(figure))).toEqual([]);
  expect(pit.reduce((sum, count) => sum + count, 0)).toBe(result.items);
  expect(rivals.map(({ rival }) => rival)).toEqual(RIVALS);
  return result;
}

describe('what is no item is refused by its number, wherever it stands', () => {
  // The first month is only learned from, the last only predicted; four items are never fitted.
  it.each<[string, Partial<DatedItem>, string]>([
    ...[0, -2, Number.NaN, Number.POSITIVE_INFINITY].flatMap(
      (hours): [string, Partial<DatedItem>, string][] => [
        [`${hours} hours`, { hours }, `Hours must be a finite number above 0; got ${hours}.`],
        [`a standard of ${hours}`, { standardHours: hours }, `above 0; got ${hours}.`],
      ],
    ),
    ['a share', { mechanics: [{ name: 'Bo', share: 2 }] }, 'The share of Bo must be from 0 to 1'],
    ['a place', { place: { clearanceMm: -1 } }, 'got -1.'],
    ['a planned place', { planned: { clearanceMm: Number.NaN } }, 'got NaN.'],
    ['a day', { completedOn: '9 March' }, 'A day must be ISO 8601 (2026-03-09); got "9 March".'],
    ['a month', { completedOn: '2025-13-01' }, 'got "2025-13-01".'],
    ['the 30th of February', { completedOn: '2025-02-30' }, 'got "2025-02-30".'],
  ])('%s', (_, what, sentence) => {
    for (const at of [0, 119]) {
      expect(() => backtest(one(at, what))).toThrow(RangeError);
      expect(() => backtest(one(at, what))).toThrow(`Item ${at + 1}: `);
      expect(() => backtest(one(at, what))).toThrow(sentence);
    }
    expect(() => backtest(one(3, what).slice(0, 4))).toThrow(sentence);
  });
});

describe('pasts at the edge have an answer', () => {
  it('a million hours once: learned from early on it hardly matters, met at last it costs what it costs', () => {
    const before = sound(year());
    const early = sound(one(0, { hours: 1e6 }));
    expect(Math.abs(early.crps! / before.crps! - 1)).toBeLessThan(0.1);
    // The standard's past errors hold it as one of equals, and its forecasts pay.
    const standard = early.rivals.find(({ rival }) => rival === 'standard')!;
    expect(standard.crps).toBeGreaterThan(10 * standard.modelCrps!);
    const late = sound(one(119, { hours: 1e6 }));
    expect(late.crps! * late.items).toBeGreaterThan(0.99e6);
  });

  it('one job, or none: nothing to compare, and it says so', () => {
    for (const items of [[], year().slice(0, 1)]) {
      const { items: scored, coverage, crps, verdict, rivals } = sound(items);
      expect([scored, coverage, crps]).toEqual([0, undefined, undefined]);
      expect(verdict).toMatch(/^Too few past jobs/);
      for (const { crps: theirs, pit } of rivals)
        expect([theirs, pit]).toEqual([undefined, undefined]);
    }
  });

  it('all equal: every plain rule is right to the digit, and the page is told that they do better', () => {
    const { coverage, crps, rivals, verdict } = sound(year(() => ({ hours: 3 })));
    expect(coverage).toBe(1);
    expect(crps).toBeGreaterThan(0);
    for (const { rival, crps: theirs, pit } of rivals) {
      expect(theirs, rival).toBeCloseTo(0, 12);
      // As long as all past ones: spread over all tenths alike.
      for (const count of pit!) expect(count).toBeCloseTo(9, 9);
    }
    expect(verdict).toMatch(/^For this shop "standard" and .* would have done better/);
  });

  it('all lower bounds: nothing is scored', () => {
    expect(sound(year(() => ({ censored: true }))).items).toBe(0);
  });

  it('one mechanic, one task, one aircraft', () => {
    const { items, byMechanic, byTask } = sound(year());
    expect(items).toBe(90);
    expect([byMechanic.length, byTask.length]).toEqual([1, 1]);
  });

  it('a task, a model and a mechanic that come in the last months only: predicted, by rules as well that know something', () => {
    const later = { task: 'Late', model: 'Model B', registration: 'QQ-2' };
    const { byTask, byModel } = sound(
      year((index) =>
        index < 100 ? {} : { ...later, mechanics: [{ name: 'Newcomer', share: 1 }] },
      ),
    );
    const late = byTask.find(({ key }) => key === 'Late')!;
    expect(late.items).toBe(20);
    const itemsOf = (rival: string) => late.rivals.find((each) => each.rival === rival)!.items;
    // Of its first month only the standard says anything.
    expect([itemsOf('standard'), itemsOf('mean')]).toEqual([20, 10]);
    expect(byModel.map(({ items }) => items)).toEqual([70, 20]);
  });

  it('conditions that always come together', () => {
    const cramped = { clearanceMm: 100, held: true, reach: 'arm' as const };
    const free = { clearanceMm: 400, held: false, reach: 'forearm' as const };
    expect(sound(year((index) => ({ place: index % 2 ? cramped : free }))).items).toBe(90);
  });

  it('every job a task of its own: rules without a standard have nothing to say', () => {
    const { rivals } = sound(
      year((index) => ({ task: `Once ${index}`, standardHours: undefined })),
    );
    expect(rivals.map(({ items }) => items)).toEqual([0, 0, 0, 0, 0]);
  });
});
