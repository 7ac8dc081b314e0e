import type { Drawing, Point, Zone } from './drawing.ts';

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export interface PlacedBalloon<B> {
  number: number;
  zone: Point;
  at: Point;
  balloon: B;
}

/** Balloons a tenth of the width apart, from the first at a twentieth. */
const IN_A_ROW = 9;

/**
 * Where balloons stand: over or under the drawing, in the order of what they point at, no two
 * closer than a tenth of the width, so that they stay apart on a phone. Where a row is full, the
 * next stands behind it, staggered, so that every leader passes between two balloons.
 *
 * A zone that this kind does not have is pointed at on the cabin.
 */
export function balloonPlaces<B extends { number: number; zone: Zone }>(
  drawing: Drawing,
  balloons: readonly B[],
): { placed: PlacedBalloon<B>[]; box: Box } {
  const width = drawing.right - drawing.left;
  const middle = (drawing.top + drawing.bottom) / 2;
  const margin = width * 0.11;
  // Leaders lean outwards, as they do on a drawing: an upright one would pass for an axis.
  const centre = (drawing.left + drawing.right) / 2;
  const lean = width * 0.05;
  const pointed = balloons.map((balloon) => ({
    balloon,
    zone: drawing.zones[balloon.zone] ?? drawing.zones.cabin ?? { x: width / 2, y: middle },
  }));
  const placed: PlacedBalloon<B>[] = [];
  const box: Box = {
    left: drawing.left,
    right: drawing.right,
    top: drawing.top,
    bottom: drawing.bottom,
  };
  for (const over of [true, false]) {
    const side = pointed.filter(({ zone }) => zone.y <= middle === over);
    if (side.length === 0) continue;
    side.sort((a, b) => a.zone.x - b.zone.x);
    const rows = Math.ceil(side.length / IN_A_ROW);
    const places = spread(
      side.map(({ zone }) => zone.x + (zone.x < centre ? -lean : lean)),
      (width * 0.1) / rows,
      drawing.left + width * 0.05,
      drawing.right - width * 0.05,
    );
    side.forEach(({ balloon, zone }, index) => {
      const away = margin * (0.55 + (index % rows));
      const y = over ? drawing.top - away : drawing.bottom + away;
      placed.push({ number: balloon.number, zone, at: { x: places[index] ?? zone.x, y }, balloon });
    });
    if (over) box.top -= margin * rows;
    else box.bottom += margin * rows;
  }
  return { placed, box };
}

/**
 * Places in order, each as near as it can be to where it is wanted, `apart` from the next and
 * within the ends; where they cannot all fit they share the width evenly.
 *
 * @example spread([1, 1.1], 1, 0, 10) // → [1, 2]
 */
export function spread(
  wanted: readonly number[],
  apart: number,
  from: number,
  to: number,
): number[] {
  const gap = wanted.length < 2 ? 0 : Math.min(apart, (to - from) / (wanted.length - 1));
  const places: number[] = [];
  for (const [index, want] of wanted.entries()) {
    const earliest = index === 0 ? from : (places[index - 1] ?? from) + gap;
    const latest = to - gap * (wanted.length - 1 - index);
    places.push(Math.min(Math.max(want, earliest), latest));
  }
  return places;
}
