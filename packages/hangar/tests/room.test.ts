import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AircraftShape,
  fits,
  footprint,
  formatMetres,
  metres,
  type Stand,
} from '../src/index.ts';

const shapeOf = (length: number, width: number, height = 3): AircraftShape => ({
  kind: 'helicopter_four_seat',
  lengthM: metres(length),
  spanM: metres(10.1),
  heightM: metres(height),
  parkedLengthM: metres(length),
  parkedWidthM: metres(width),
});
const size = fc.integer({ min: 1, max: 30_000 }).map((value) => value / 1000);
const heading = fc.integer({ min: -720, max: 720 });

describe('footprint', () => {
  test('straight it is its own length and width, at a quarter turn exactly the other way round', () => {
    const shape = shapeOf(10.9, 2.2);
    expect(footprint(shape)).toMatchObject({ alongM: 10.9, acrossM: 2.2 });
    for (const quarter of [90, 270, -90, 450]) {
      expect(footprint(shape, { heading: quarter })).toMatchObject({ alongM: 2.2, acrossM: 10.9 });
    }
  });

  test('turned by 30° clockwise the nose goes right: corners by hand', () => {
    const { corners } = footprint(shapeOf(4, 2), { heading: 30 });
    // cos 30° = √3/2, sin 30° = 1/2: nose right (1, 2) → (√3/2 + 1, √3 − 1/2)
    expect(corners[0].x).toBeCloseTo(Math.sqrt(3) / 2 + 1, 12);
    expect(corners[0].y).toBeCloseTo(Math.sqrt(3) - 0.5, 12);
  });

  test('the sides hold all corners and no more, whatever the heading', () => {
    fc.assert(
      fc.property(size, size, heading, (length, width, turn) => {
        const { corners, alongM, acrossM } = footprint(Object.freeze(shapeOf(length, width)), {
          heading: turn,
        });
        const most = (values: number[]) => Math.max(...values) - Math.min(...values);
        expect(most(corners.map(({ y }) => y))).toBeCloseTo(alongM, 9);
        expect(most(corners.map(({ x }) => x))).toBeCloseTo(acrossM, 9);
        const turnedBack = footprint(shapeOf(length, width), { heading: turn + 180 });
        expect(turnedBack.alongM).toBeCloseTo(alongM, 9);
      }),
      { numRuns: 1000 },
    );
  });

  test('lengths and headings that are none are refused', () => {
    expect(() => metres(-1)).toThrow('Cannot use -1 m as length');
    expect(() => metres(Number.NaN)).toThrow('Cannot use NaN m');
    expect(() => metres(1090)).toThrow('give 0 to 1000 m');
    expect(() => footprint(shapeOf(0, 2))).toThrow('give both above 0');
    expect(() => footprint(shapeOf(1, 2), { heading: Number.NaN })).toThrow('heading of NaN');
  });
});

describe('fits', () => {
  const stand = (length: number, width: number, height?: number): Stand => ({
    id: 's2',
    name: '2',
    lengthM: metres(length),
    widthM: metres(width),
    ...(height === undefined ? {} : { heightM: metres(height) }),
  });
  const aircraft = { registration: 'QQ-117', shape: shapeOf(10.9, 2.2) };
  const one = { aroundM: metres(1) };

  test('exactly enough room is enough', () => {
    expect(fits(aircraft, stand(12.9, 4.2), one)).toEqual({ fits: true });
    expect(fits(aircraft, stand(12.89, 4.2), one).fits).toBe(false);
  });

  test('the sentence says what was refused, the value given and the value needed', () => {
    expect(fits(aircraft, stand(12, 6), one)).toEqual({
      fits: false,
      sentence:
        "Cannot plan QQ-117 on stand 2: parked it is 10.9 m long and needs 12.9 m with the shop's clearance; the stand is 12.0 m",
    });
  });

  test('all that is short is said at once', () => {
    const answer = fits(aircraft, stand(12, 4, 2.5), { ...one, aboveM: metres(0.5) });
    expect(answer).toEqual({
      fits: false,
      sentence:
        "Cannot plan QQ-117 on stand 2: parked it is 10.9 m long and needs 12.9 m with the shop's clearance; the stand is 12.0 m; it is 2.2 m wide and needs 4.2 m with the shop's clearance; the stand is 4.0 m wide; it is 3.0 m high and needs 3.5 m with the shop's clearance; the stand is 2.5 m high",
    });
  });

  test('two figures that differ are never printed alike', () => {
    const close = { ...aircraft, shape: shapeOf(10.04, 2) };
    expect(fits(close, stand(12, 6), one)).toMatchObject({
      sentence: expect.stringContaining('10.04 m long and needs 12.04 m'),
    });
  });

  test('turning an aircraft can make it fit', () => {
    expect(fits(aircraft, stand(5, 13), one).fits).toBe(false);
    expect(fits({ ...aircraft, heading: 90 }, stand(5, 13), one)).toEqual({ fits: true });
  });

  test('a larger stand or less clearance never makes it worse', () => {
    fc.assert(
      fc.property(size, size, size, size, heading, (length, width, along, across, turn) => {
        const parked = { registration: 'QQ-1', shape: shapeOf(length, width), heading: turn };
        const here = fits(parked, stand(along, across), one);
        const larger = fits(parked, stand(along + 1, across + 1), one);
        const closer = fits(parked, stand(along, across), { aroundM: metres(0.5) });
        expect(here.fits && !larger.fits).toBe(false);
        expect(here.fits && !closer.fits).toBe(false);
        if (!here.fits) {
          expect(here.sentence).toContain("with the shop's clearance; the stand is ");
        }
      }),
      { numRuns: 1000 },
    );
  });

  test('lengths are written to 10 cm', () => {
    expect(formatMetres(metres(12.04))).toBe('12.0 m');
  });
});
