import fc from 'fast-check';
import { expect, it } from 'vitest';
import { hundredths, projectedDay, useOfAircraft } from '../src/index.ts';

const reading = (date: number, tis: number) => ({ date, tis: hundredths(tis) });

it('says nothing of an aircraft of which little is known', () => {
  expect(useOfAircraft([], 100)).toBeNull();
  expect(useOfAircraft([reading(0, 0), reading(40, 900), reading(80, 1800)], 100)).toBeNull();
  // Four readings within one week are one.
  expect(
    useOfAircraft(
      [0, 2, 4, 6].map((day) => reading(day, day * 100)),
      100,
    ),
  ).toBeNull();
  // Older than two years.
  expect(
    useOfAircraft(
      [0, 40, 80, 120].map((day) => reading(day, day * 10)),
      2000,
    ),
  ).toBeNull();
});

it('an aircraft that stands all winter has no latest day', () => {
  const use = useOfAircraft(
    [reading(0, 0), reading(60, 6000), reading(150, 6000), reading(200, 9000)],
    200,
  );
  expect(use).toEqual({ usual: 45, least: 0, most: 100 });
  expect(projectedDay(use!, 4500, 200)).toEqual({ usual: 300, earliest: 245, latest: null });
});

it('what is past due is due today, however much it flies', () => {
  fc.assert(
    fc.property(fc.integer({ min: -10_000, max: 0 }), (hours) => {
      expect(projectedDay({ usual: 0, least: 0, most: 3 }, hours, 77)).toEqual({
        ...{ usual: 77, earliest: 77, latest: 77 },
      });
    }),
  );
});

it('busier is never later, and the usual lies between', () => {
  const readings = fc
    .array(fc.record({ days: fc.integer({ min: 28, max: 90 }), flown: fc.nat(20_000) }), {
      minLength: 3,
      maxLength: 8,
    })
    .map((stretches) => {
      let [date, tis] = [0, 0];
      return [
        reading(0, 0),
        ...stretches.map(({ days, flown }) => reading((date += days), (tis += flown))),
      ];
    });
  fc.assert(
    fc.property(readings, fc.integer({ min: 1, max: 50_000 }), (given, hours) => {
      const today = given.at(-1)!.date;
      const use = useOfAircraft(Object.freeze(given), today);
      expect(use).not.toBeNull();
      const { usual, earliest, latest } = projectedDay(use!, hours, today);
      expect(earliest ?? Infinity).toBeLessThanOrEqual(usual ?? Infinity);
      expect(usual ?? Infinity).toBeLessThanOrEqual(latest ?? Infinity);
    }),
  );
});
