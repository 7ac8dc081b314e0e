import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type AircraftShape, enters, type HangarRoom, metres } from '../src/index.ts';

const craft = (length: number, width: number) => {
  const shape: AircraftShape = {
    kind: 'airplane_twin',
    lengthM: metres(length),
    spanM: metres(width),
    heightM: metres(3),
    parkedLengthM: metres(length),
    parkedWidthM: metres(width),
  };
  return Object.freeze({ registration: 'QQ-900', shape: Object.freeze(shape) });
};
const hangar: HangarRoom = Object.freeze({
  name: 'Hangar 2',
  widthM: metres(35),
  depthM: metres(25),
  doorWidthM: metres(14.4),
});

test('larger than the hangar is said with both measures, before the door is', () => {
  expect(enters(craft(40, 42), hangar)).toEqual({
    fits: false,
    sentence:
      'Cannot bring QQ-900 into Hangar 2: parked it is 40.0 m long and 42.0 m wide; inside, the hangar is 35.0 m by 25.0 m',
  });
});

test('wider than the door is said with the door; exactly as wide gets in', () => {
  expect(enters(craft(12, 14.5), hangar)).toEqual({
    fits: false,
    sentence:
      'Cannot bring QQ-900 into Hangar 2: parked it is 14.5 m wide; the door is 14.4 m wide',
  });
  expect(enters(craft(12, 14.4), hangar)).toEqual({ fits: true });
});

test('longer than the hangar is deep gets in where it can stand across', () => {
  expect(enters(craft(30, 3), hangar)).toEqual({ fits: true });
  expect(enters(craft(35.1, 3), hangar).fits).toBe(false);
});

test('what gets in still does when it is smaller, or the hangar larger', () => {
  const size = fc.integer({ min: 100, max: 50_000 }).map((value) => value / 1000);
  fc.assert(
    fc.property(size, size, fc.double({ min: 0.1, max: 1, noNaN: true }), (length, width, part) => {
      if (!enters(craft(length, width), hangar).fits) return;
      expect(enters(craft(length * part, width * part), hangar).fits).toBe(true);
      const larger = {
        ...hangar,
        widthM: metres(35 / part),
        depthM: metres(25 / part),
        doorWidthM: metres(14.4 / part),
      };
      expect(enters(craft(length, width), larger).fits).toBe(true);
    }),
    { numRuns: 500 },
  );
});

test('lengths that are none are refused', () => {
  expect(() => enters(craft(0, 3), hangar)).toThrow('give both above 0');
  expect(() => enters(craft(3, 3), { ...hangar, doorWidthM: -1 as never })).toThrow(
    'Cannot use -1 m as door width',
  );
});
