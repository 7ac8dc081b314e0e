import { aircraftKinds } from '@fairlead/hangar';
import { expect, test } from 'vitest';
import { balloonPlaces, spread } from '../components/silhouette/balloons.ts';
import { drawAircraft } from '../components/silhouette/draw.ts';
import { type AircraftSize, aircraftSize, place } from '../components/silhouette/drawing.ts';

const size: AircraftSize = Object.freeze({
  lengthM: 8,
  spanM: 10,
  heightM: 2.8,
  parkedLengthM: 10,
  parkedWidthM: 3,
});

/** The points of the outlines; round parts are written otherwise and lie inside them. */
function reach(kind: (typeof aircraftKinds)[number], view: 'side' | 'plan', of: AircraftSize) {
  const solid = drawAircraft(kind, of, view).marks.filter(
    (mark) => mark.weight === 'outline' && !mark.d.includes('a'),
  );
  const points = solid.flatMap((mark) => [...mark.d.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)]);
  return { x: points.map((p) => Number(p[1])), y: points.map((p) => Number(p[2])) };
}

for (const kind of aircraftKinds) {
  test(`${kind} is as tall and as long as its model says`, () => {
    const { x, y } = reach(kind, 'side', size);
    const helicopter = kind.startsWith('helicopter');
    expect(-Math.min(...y)).toBeGreaterThan(size.heightM * 0.95);
    expect(-Math.min(...y)).toBeLessThan(size.heightM * 1.05);
    expect(Math.max(...y)).toBeLessThanOrEqual(0.001);
    if (!helicopter) {
      expect(Math.min(...x)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...x)).toBeGreaterThan(size.lengthM * 0.97);
      expect(Math.max(...x)).toBeLessThanOrEqual(size.lengthM);
    }
  });

  test(`${kind} doubles when its model doubles`, () => {
    const twice = {
      ...size,
      lengthM: size.lengthM * 2,
      heightM: size.heightM * 2,
      spanM: size.spanM * 2,
    };
    const { zones } = drawAircraft(kind, size, 'side');
    const doubled = drawAircraft(kind, twice, 'side').zones;
    expect(doubled.cabin?.x).toBeCloseTo((zones.cabin?.x ?? 0) * 2, 2);
    expect(doubled.cabin?.y).toBeCloseTo((zones.cabin?.y ?? 0) * 2, 2);
  });

  test(`every zone of ${kind} lies on its drawing`, () => {
    for (const view of ['side', 'plan'] as const) {
      const { zones, left, right, top, bottom } = drawAircraft(kind, size, view);
      for (const [zone, { x, y }] of Object.entries(zones)) {
        expect(x >= left && x <= right && y >= top && y <= bottom, `${view} ${zone}`).toBe(true);
      }
    }
  });
}

test('the span of a wing and of a rotor is the model’s', () => {
  for (const kind of ['airplane_single', 'airplane_twin'] as const) {
    const { y } = reach(kind, 'plan', size);
    expect(Math.max(...y) - Math.min(...y)).toBeCloseTo(size.spanM, 2);
  }
  const { left } = drawAircraft('helicopter_two_seat', size, 'plan');
  const hub = drawAircraft('helicopter_two_seat', size, 'plan').zones.mast?.x ?? 0;
  expect(hub - left).toBeCloseTo(size.spanM / 2, 6);
});

test('a dimension that is not above zero is refused by name', () => {
  expect(() => drawAircraft('airplane_single', { ...size, spanM: 0 }, 'plan')).toThrow(
    'spanM is 0 m',
  );
});

test('paths are placed point by point, and millimetres become metres', () => {
  expect(place('M 1 2 L 3 -4', 2, -1, 10)).toBe('M 12 -2 L 16 4');
  const model = {
    lengthMm: 8200,
    spanMm: 10900,
    heightMm: 2700,
    parkedLengthMm: 8200,
    parkedWidthMm: 10900,
  };
  expect(aircraftSize(model).spanM).toBe(10.9);
});

test('balloons keep their distance, their order and the sheet', () => {
  expect(spread([1, 1.1], 1, 0, 10)).toEqual([1, 2]);
  expect(spread([9.9, 9.95, 10], 1, 0, 10)).toEqual([8, 9, 10]);
  expect(spread([5, 5, 5], 10, 0, 10)).toEqual([0, 5, 10]);
  const drawing = drawAircraft('helicopter_two_seat', size, 'side');
  const { placed } = balloonPlaces(
    drawing,
    (['mast', 'tail_boom', 'gear', 'engine_bay', 'propeller'] as const).map((zone, i) => ({
      number: i + 1,
      zone,
    })),
  );
  // A helicopter has no propeller: it is pointed at on the cabin.
  expect(placed.find((each) => each.number === 5)?.zone).toEqual(drawing.zones.cabin);
  expect(placed).toHaveLength(5);
});

for (const kind of aircraftKinds) {
  test(`on ${kind}, 23 balloons in one place, and 23 in all places, do not overlap on a phone`, () => {
    const drawing = drawAircraft(kind, size, 'side');
    const width = drawing.right - drawing.left;
    const zones = Object.keys(drawing.zones) as (keyof typeof drawing.zones)[];
    const inOne = Array.from({ length: 23 }, (_, i) => ({ number: i + 1, zone: 'cabin' as const }));
    const inAll = inOne.map((each, i) => ({ ...each, zone: zones[i % zones.length] ?? 'cabin' }));
    for (const balloons of [inOne, inAll]) {
      const { placed, box } = balloonPlaces(drawing, balloons);
      expect(placed).toHaveLength(23);
      for (const one of placed) {
        // A balloon is 30 px across; the drawing is 320 px wide at the narrowest.
        const radius = (15 / 320) * width;
        expect(one.at.x - radius).toBeGreaterThanOrEqual(box.left);
        expect(one.at.x + radius).toBeLessThanOrEqual(box.right);
        expect(one.at.y - radius).toBeGreaterThanOrEqual(box.top);
        expect(one.at.y + radius).toBeLessThanOrEqual(box.bottom);
        for (const other of placed) {
          if (other.number <= one.number) continue;
          const apart = Math.hypot(one.at.x - other.at.x, one.at.y - other.at.y);
          expect(apart, `${one.number} and ${other.number}`).toBeGreaterThan(radius * 2);
        }
      }
    }
  });
}
