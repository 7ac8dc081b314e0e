import { type AircraftSize, cross, type Drawing, type Mark, Pen, ring } from './drawing.ts';
import { type HelicopterShape, helicopterShapes } from './helicopter-shapes.ts';

/** Helicopter from its left side, blades fore and aft. */
export function helicopterSide(kind: keyof typeof helicopterShapes, size: AircraftSize): Drawing {
  const shape = helicopterShapes[kind];
  const sx = size.lengthM / shape.length;
  const sz = size.heightM / shape.height;
  const pen = new Pen(sx, -sz);
  const hub = pen.at(shape.hub.x, shape.hub.z);
  const radius = size.spanM / 2;
  const sag = radius * 0.045;
  const marks: Mark[] = [];
  for (const way of [-1, 1]) {
    const tip = hub.x + way * radius;
    const reach = way * radius;
    marks.push({
      d: `M${hub.x} ${hub.y - 0.03}C${hub.x + reach * 0.4} ${hub.y - 0.05} ${hub.x + reach * 0.75} ${hub.y + sag * 0.35} ${tip} ${hub.y + sag}L${tip} ${hub.y + sag + 0.045}C${hub.x + reach * 0.75} ${hub.y + sag * 0.35 + 0.05} ${hub.x + reach * 0.4} ${hub.y + 0.02} ${hub.x} ${hub.y + 0.05}Z`,
      weight: 'outline',
      filled: true,
    });
  }
  shape.side(pen);
  const head = 0.3 * sx;
  const tail = pen.at(shape.tailRotor.x, shape.tailRotor.z);
  const tailRadius = shape.tailRotor.r * sx;
  const lean = tailRadius * 0.24;
  marks.push(
    ...pen.marks,
    {
      d: `M${hub.x - head} ${hub.y - 0.02}L${hub.x - head * 0.35} ${hub.y - 0.09}H${hub.x + head * 0.35}L${hub.x + head} ${hub.y - 0.02}V${hub.y + 0.05}L${hub.x + head * 0.35} ${hub.y + 0.09}H${hub.x - head * 0.35}L${hub.x - head} ${hub.y + 0.05}Z`,
      weight: 'outline',
      filled: true,
    },
    { d: ring(hub.x, hub.y, 0.035 * sx), weight: 'hair' },
    { d: ring(tail.x, tail.y, tailRadius), weight: 'centre' },
    { d: cross(tail.x, tail.y, tailRadius), weight: 'centre' },
    {
      d: `M${tail.x - lean - 0.05} ${tail.y - tailRadius * 0.96}L${tail.x - lean + 0.06} ${tail.y - tailRadius}L${tail.x + lean + 0.05} ${tail.y + tailRadius * 0.96}L${tail.x + lean - 0.06} ${tail.y + tailRadius}Z`,
      weight: 'outline',
      filled: true,
    },
    { d: ring(tail.x, tail.y, 0.075 * sx), weight: 'outline', filled: true },
    { d: `M${hub.x} ${hub.y - 0.34}V0.12`, weight: 'centre' },
  );
  const left = Math.min(0, hub.x - radius);
  const right = Math.max(size.lengthM, hub.x + radius);
  marks.push({ d: `M${left} 0H${right}`, weight: 'hair' });
  return {
    marks,
    zones: {
      ...placesOf(shape, pen),
      main_rotor: { x: hub.x - radius * 0.55, y: hub.y + sag * 0.1 },
      tail_rotor: { x: tail.x + lean * 0.5, y: tail.y + tailRadius * 0.5 },
    },
    left,
    right,
    top: hub.y - 0.36,
    bottom: 0.14,
  };
}

/** Helicopter from above, blades fore and aft inside their disc. */
export function helicopterPlan(kind: keyof typeof helicopterShapes, size: AircraftSize): Drawing {
  const shape = helicopterShapes[kind];
  const sx = size.lengthM / shape.length;
  const pen = new Pen(sx, sx);
  shape.plan(pen);
  const hub = pen.at(shape.hub.x, 0);
  const radius = size.spanM / 2;
  const chord = Math.max(0.09, radius * 0.024);
  const tail = pen.at(shape.tailRotor.x, -shape.widths.tailRotor);
  const tailRadius = shape.tailRotor.r * sx;
  const left = Math.min(0, hub.x - radius);
  const right = Math.max(size.lengthM, hub.x + radius);
  const marks: Mark[] = [
    { d: ring(hub.x, 0, radius), weight: 'centre' },
    ...pen.marks,
    {
      d: `M${tail.x - tailRadius} ${tail.y - 0.03}H${tail.x + tailRadius}V${tail.y + 0.03}H${tail.x - tailRadius}Z`,
      weight: 'outline',
      filled: true,
    },
    {
      d: `M${hub.x - radius} ${-chord}H${hub.x + radius}V${chord}H${hub.x - radius}Z`,
      weight: 'outline',
      filled: true,
    },
    { d: ring(hub.x, 0, 0.17 * sx), weight: 'outline', filled: true },
    { d: cross(hub.x, 0, radius * 0.2), weight: 'centre' },
  ];
  const flat = (x: number, y = 0) => pen.at(x, y);
  return {
    marks,
    zones: {
      nose: flat(shape.places.nose[0]),
      cabin: flat(shape.places.cabin[0], 0.3),
      engine_bay: flat(shape.places.engine_bay[0], 0.2),
      fuel: flat(shape.places.fuel[0], 0.42),
      mast: hub,
      main_rotor: { x: hub.x - radius * 0.7, y: 0 },
      tail_boom: flat(shape.places.tail_boom[0]),
      tail_rotor: tail,
      tail: flat(shape.places.tail[0]),
      gear: flat(shape.places.gear[0], shape.widths.skid),
    },
    left,
    right,
    top: -radius,
    bottom: radius,
  };
}

function placesOf(shape: HelicopterShape, pen: Pen) {
  const { nose, cabin, engine_bay, fuel, mast, tail_boom, gear, tail } = shape.places;
  return {
    nose: pen.at(...nose),
    cabin: pen.at(...cabin),
    engine_bay: pen.at(...engine_bay),
    fuel: pen.at(...fuel),
    mast: pen.at(...mast),
    tail_boom: pen.at(...tail_boom),
    gear: pen.at(...gear),
    tail: pen.at(...tail),
  };
}
