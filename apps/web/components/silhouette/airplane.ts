import { type AircraftSize, type Drawing, Pen } from './drawing.ts';

const single = { length: 8.2, span: 10.9, height: 2.72 };
const twin = { length: 8.9, span: 11.9, height: 2.95 };

/** High-wing single from its left side. */
export function singleSide(size: AircraftSize): Drawing {
  const pen = new Pen(size.lengthM / single.length, -size.heightM / single.height);
  pen
    // propeller behind its spinner
    .body(
      'M 0.17 1.3 C 0.1 1.6 0.12 1.95 0.19 2.24 L 0.25 2.24 C 0.3 1.95 0.28 1.6 0.27 1.3 C 0.3 1.0 0.3 0.65 0.25 0.36 L 0.19 0.36 C 0.14 0.65 0.1 1.0 0.17 1.3 Z',
    )
    // nose gear
    .line('M 0.96 0.86 L 0.92 0.24 M 1.06 0.84 L 0.92 0.24', 'outline')
    .wheel(0.92, 0.2, 0.2)
    .wheel(0.92, 0.2, 0.08, 'hair')
    // fin and rudder, then the fuselage over their foot
    .body(
      'M 5.5 1.74 C 6.1 1.76 6.36 1.86 6.6 2.08 L 7.06 2.66 C 7.1 2.7 7.16 2.72 7.24 2.72 L 7.66 2.72 C 7.74 2.72 7.78 2.68 7.8 2.6 L 8.06 1.5 L 7.6 1.26 L 5.5 1.5 Z',
    )
    .line('M 7.36 2.72 L 7.58 1.5 L 7.52 1.28 M 7.5 2.1 L 7.92 2.1')
    .body(
      'M 0.36 1.5 C 0.7 1.6 1.2 1.66 1.74 1.7 C 1.98 1.9 2.2 2.08 2.46 2.2 L 3.9 2.24 C 4.3 2.1 4.7 1.9 5.2 1.8 C 6.0 1.7 6.9 1.6 7.58 1.52 L 7.62 1.26 C 6.6 1.16 5.6 0.98 4.6 0.82 C 3.9 0.72 3.0 0.68 2.2 0.7 C 1.5 0.72 1.0 0.78 0.66 0.86 C 0.46 0.92 0.36 1.0 0.34 1.12 Z',
    )
    .body('M 0.36 1.5 C 0.16 1.48 0.02 1.4 0.0 1.31 C 0.02 1.2 0.16 1.12 0.34 1.12 Z')
    // windscreen, door, windows
    .line('M 1.8 1.7 C 2.04 1.9 2.24 2.05 2.5 2.16 L 2.56 1.68 C 2.3 1.7 2.0 1.72 1.8 1.7 Z')
    .line(
      'M 2.6 2.16 L 2.64 1.62 L 2.56 1.1 C 2.58 0.86 2.66 0.78 2.8 0.78 L 3.34 0.78 L 3.46 0.9 L 3.46 2.18 Z',
    )
    .line('M 2.68 2.12 L 2.72 1.58 L 3.38 1.58 L 3.38 2.12 Z M 3.24 1.44 L 3.38 1.44')
    .line(
      'M 3.54 2.12 L 3.54 1.58 L 4.36 1.58 C 4.4 1.66 4.36 1.76 4.24 1.88 C 4.12 2.0 4.0 2.1 3.9 2.12 Z',
    )
    .line('M 4.1 2.18 C 4.4 2.06 4.62 1.96 4.9 1.86 L 4.66 1.74 C 4.48 1.86 4.3 2.0 4.1 2.18 Z')
    // cowl
    .line(
      'M 1.5 1.68 L 1.46 0.73 M 0.5 1.06 C 0.8 1.08 1.1 1.1 1.46 1.1 M 0.46 1.36 L 0.46 1.22 L 0.6 1.22 L 0.6 1.38 Z M 1.06 0.96 L 1.32 0.96 M 1.06 0.9 L 1.32 0.9',
    )
    .line('M 1.16 0.76 L 1.22 0.62 L 1.32 0.62 L 1.3 0.75', 'outline')
    .line('M 4.9 1.84 L 4.86 0.87 M 6.1 1.69 L 6.1 1.08')
    // tailplane
    .body('M 6.72 1.5 C 6.8 1.6 7.1 1.6 7.72 1.5 C 7.1 1.44 6.8 1.42 6.72 1.5 Z')
    .line('M 7.3 1.55 L 7.3 1.46')
    // main gear
    .body('M 2.86 0.7 L 3.02 0.3 L 3.16 0.3 L 3.12 0.7 Z')
    .wheel(3.1, 0.23, 0.23)
    .wheel(3.1, 0.23, 0.09, 'hair')
    // strut, wing section over the cabin
    .body('M 2.56 0.86 L 2.86 2.22 L 2.96 2.22 L 2.68 0.84 Z')
    .body(
      'M 2.1 2.26 C 2.12 2.42 2.5 2.47 2.9 2.44 C 3.3 2.4 3.6 2.32 3.86 2.24 C 3.4 2.2 2.4 2.16 2.1 2.26 Z',
    )
    .line('M 3.3 2.38 L 3.34 2.21')
    .line('M -0.3 1.31 L 0.9 1.31', 'centre')
    .line('M 0 0 L 8.2 0');
  return {
    marks: pen.marks,
    zones: {
      propeller: pen.at(0.22, 1.95),
      nose: pen.at(0.5, 1.45),
      engine_bay: pen.at(1.05, 1.34),
      cabin: pen.at(3.05, 1.3),
      fuel: pen.at(2.5, 2.36),
      wing: pen.at(3.2, 2.34),
      gear: pen.at(3.1, 0.23),
      tail_boom: pen.at(5.5, 1.36),
      tail: pen.at(7.3, 2.2),
    },
    left: -0.3,
    right: size.lengthM,
    top: -size.heightM - 0.06,
    bottom: 0.08,
  };
}

/** High-wing single from above; the wing lies over the cabin. */
export function singlePlan(size: AircraftSize): Drawing {
  const pen = new Pen(size.lengthM / single.length, size.lengthM / single.length);
  pen
    .body('M 0.18 0.96 L 0.18 -0.96 L 0.27 -0.96 L 0.27 0.96 Z')
    .bodies('M 6.6 0 L 6.74 1.58 C 6.78 1.66 6.84 1.68 6.92 1.68 L 7.44 1.68 L 7.66 0.14 L 7.62 0')
    .lines('M 7.14 1.68 L 7.22 0.1')
    .bodies(
      'M 0.34 0 C 0.34 0.2 0.36 0.36 0.44 0.42 C 0.8 0.52 1.3 0.56 1.9 0.58 L 3.8 0.56 C 5.0 0.44 6.4 0.22 7.6 0.06 L 7.6 0',
    )
    .bodies('M 0 0 C 0.02 0.12 0.16 0.2 0.36 0.2 L 0.36 0')
    .lines(
      'M 1.5 0 L 1.5 0.56 M 1.74 0 C 1.76 0.2 1.82 0.38 1.9 0.5 L 2.2 0.5 M 3.9 0.46 C 4.2 0.42 4.5 0.3 4.7 0 M 0.62 0.3 L 1.4 0.36',
    )
    .body('M 5.6 0.03 L 8.0 0.04 L 8.12 0 L 8.0 -0.04 L 5.6 -0.03 Z');
  pen
    .scaled(size.spanM / single.span)
    .bodies(
      'M 2.1 0 L 2.12 2.6 L 2.3 5.2 C 2.34 5.38 2.44 5.45 2.6 5.45 L 3.3 5.45 C 3.42 5.45 3.46 5.38 3.48 5.28 L 3.8 2.6 L 3.8 0',
    )
    .lines(
      'M 3.36 0.62 L 3.36 2.6 L 3.8 2.6 M 3.36 2.6 L 3.26 5.1 L 3.5 5.14 M 2.54 0.4 L 2.54 5.2 M 2.68 0.8 L 3.2 0.8 L 3.2 1.7 L 2.68 1.7 Z',
    )
    .lines('M 3.8 0.6 L 3.36 0.62');
  pen.line('M -0.3 0 L 8.5 0', 'centre');
  const wing = size.spanM / single.span;
  return {
    marks: pen.marks,
    zones: {
      propeller: pen.at(0.22, 0.6),
      nose: pen.at(0.5, 0),
      engine_bay: pen.at(1.0, 0.2),
      cabin: pen.at(1.95, 0.2),
      fuel: { x: pen.at(2.95, 0).x, y: 1.25 * wing },
      wing: { x: pen.at(2.9, 0).x, y: -3.6 * wing },
      gear: pen.at(3.1, 0.56),
      tail_boom: pen.at(5.4, 0.1),
      tail: pen.at(7.1, 0.8),
    },
    left: -0.3,
    right: size.lengthM + 0.3,
    top: -size.spanM / 2,
    bottom: size.spanM / 2,
  };
}

/** Low-wing twin from its left side. */
export function twinSide(size: AircraftSize): Drawing {
  const pen = new Pen(size.lengthM / twin.length, -size.heightM / twin.height);
  pen
    .line('M 0.98 0.92 L 0.9 0.26 M 1.1 0.92 L 0.9 0.26', 'outline')
    .wheel(0.9, 0.22, 0.22)
    .wheel(0.9, 0.22, 0.09, 'hair')
    .body(
      'M 6.3 1.9 C 6.7 1.96 6.96 2.12 7.2 2.4 L 7.58 2.88 C 7.64 2.94 7.7 2.95 7.78 2.95 L 8.36 2.95 C 8.46 2.95 8.5 2.9 8.52 2.82 L 8.82 1.6 L 8.4 1.36 L 6.3 1.6 Z',
    )
    .line('M 8.02 2.95 L 8.3 1.6 L 8.24 1.38 M 8.14 2.3 L 8.64 2.3')
    .body(
      'M 0.02 1.24 C 0.2 1.5 0.8 1.7 1.9 1.82 C 2.2 2.06 2.5 2.24 2.9 2.32 C 3.5 2.42 4.2 2.36 4.8 2.2 C 5.4 2.02 6.0 1.94 6.6 1.88 C 7.3 1.8 7.9 1.72 8.4 1.64 L 8.44 1.36 C 7.4 1.2 6.4 1.0 5.2 0.86 C 4.0 0.78 2.2 0.78 1.3 0.86 C 0.6 0.94 0.12 1.06 0.02 1.24 Z',
    )
    .line('M 1.96 1.82 C 2.26 2.06 2.5 2.2 2.78 2.26 L 2.86 1.84 C 2.56 1.82 2.24 1.82 1.96 1.82 Z')
    .line('M 2.94 2.26 L 2.98 1.84 L 3.52 1.84 L 3.52 2.3 C 3.3 2.32 3.1 2.3 2.94 2.26 Z')
    .line('M 3.62 2.3 L 3.62 1.84 L 4.2 1.84 L 4.2 2.26 C 4.0 2.3 3.8 2.31 3.62 2.3 Z')
    .line(
      'M 4.3 2.24 L 4.3 1.84 L 4.9 1.84 C 5.0 1.9 4.98 1.98 4.88 2.06 C 4.7 2.16 4.5 2.22 4.3 2.24 Z',
    )
    .line(
      'M 1.3 1.74 L 1.3 0.87 M 0.52 1.1 L 1.2 1.1 L 1.2 1.5 L 0.52 1.44 Z M 5.5 2.0 L 5.5 0.9 M 6.8 1.85 L 6.8 1.1',
    )
    .body('M 7.4 1.66 C 7.5 1.76 7.84 1.75 8.5 1.66 C 7.84 1.6 7.5 1.58 7.4 1.66 Z')
    .line('M 8.04 1.72 L 8.04 1.62')
    // wing section at the root, then the nacelle in front of it
    .body(
      'M 2.3 0.98 C 2.34 1.14 2.8 1.2 3.3 1.16 C 3.9 1.1 4.3 1.02 4.7 0.94 C 4.0 0.86 2.6 0.84 2.3 0.98 Z',
    )
    .line('M 3.0 0.86 L 3.16 0.3 M 3.3 0.86 L 3.16 0.3', 'outline')
    .wheel(3.18, 0.26, 0.26)
    .wheel(3.18, 0.26, 0.1, 'hair')
    .line('M 2.74 0.9 L 2.74 0.52 L 3.06 0.52')
    .body(
      'M 1.58 1.26 C 1.52 1.56 1.53 1.9 1.59 2.2 L 1.66 2.2 C 1.71 1.9 1.7 1.56 1.68 1.26 C 1.71 0.96 1.71 0.62 1.66 0.34 L 1.59 0.34 C 1.54 0.62 1.52 0.96 1.58 1.26 Z',
    )
    .body(
      'M 1.76 1.46 C 2.2 1.56 2.8 1.54 3.3 1.42 C 3.8 1.3 4.2 1.14 4.5 1.0 C 4.0 0.94 3.2 0.86 2.5 0.88 C 2.0 0.9 1.8 0.98 1.76 1.08 Z',
    )
    .body('M 1.76 1.46 C 1.58 1.44 1.46 1.36 1.44 1.27 C 1.46 1.18 1.58 1.1 1.76 1.08 Z')
    .line(
      'M 2.66 1.52 L 2.62 0.88 M 1.86 1.36 L 1.86 1.24 L 2.02 1.24 L 2.02 1.4 Z M 2.16 1.04 L 2.46 1.04 M 2.16 0.98 L 2.46 0.98',
    )
    .line('M 1.2 1.27 L 2.2 1.27', 'centre')
    .line('M 0 0 L 8.9 0');
  return {
    marks: pen.marks,
    zones: {
      nose: pen.at(0.4, 1.36),
      propeller: pen.at(1.62, 1.9),
      engine_bay: pen.at(2.34, 1.3),
      cabin: pen.at(3.6, 1.62),
      fuel: pen.at(3.9, 1.1),
      wing: pen.at(4.3, 1.0),
      gear: pen.at(3.18, 0.26),
      tail_boom: pen.at(6.1, 1.46),
      tail: pen.at(7.9, 2.4),
    },
    left: -0.1,
    right: size.lengthM,
    top: -size.heightM - 0.06,
    bottom: 0.08,
  };
}

/** Low-wing twin from above; the fuselage lies over the wing, a nacelle on each side. */
export function twinPlan(size: AircraftSize): Drawing {
  const scale = size.lengthM / twin.length;
  const pen = new Pen(scale, scale);
  pen
    .bodies('M 7.34 0 L 7.5 1.86 C 7.54 1.96 7.6 1.98 7.68 1.98 L 8.24 1.98 L 8.46 0.14 L 8.42 0')
    .lines('M 7.94 1.98 L 8.02 0.1');
  pen
    .scaled(size.spanM / twin.span)
    .bodies(
      'M 2.2 0 L 2.3 1.3 L 2.62 5.66 C 2.66 5.86 2.78 5.95 2.94 5.95 L 3.64 5.95 C 3.76 5.95 3.8 5.88 3.82 5.78 L 4.56 1.3 L 4.7 0',
    )
    .lines(
      'M 4.02 0.6 L 3.84 3.2 L 4.24 3.26 M 3.84 3.2 L 3.52 5.7 L 3.82 5.74 M 2.7 0.8 L 2.96 5.6 M 2.86 2.5 L 3.5 2.5 L 3.44 3.6 L 2.94 3.6 Z',
    );
  pen
    .bodies('M 1.58 1.0 L 1.58 2.84 L 1.67 2.84 L 1.67 1.0 Z')
    .bodies(
      'M 1.76 1.66 C 1.76 1.6 1.8 1.56 1.9 1.54 C 2.4 1.44 2.9 1.44 3.3 1.5 C 3.8 1.6 4.3 1.76 4.6 1.92 C 4.3 2.08 3.8 2.24 3.3 2.34 C 2.9 2.4 2.4 2.4 1.9 2.3 C 1.8 2.28 1.76 2.24 1.76 2.18 Z',
    )
    .bodies('M 1.76 1.72 C 1.58 1.74 1.46 1.82 1.44 1.92 C 1.46 2.02 1.58 2.1 1.76 2.12 Z')
    .lines('M 2.64 1.46 L 2.64 2.38')
    .lines('M 1.3 1.92 L 2.5 1.92', 'centre')
    .bodies(
      'M 0.02 0 C 0.06 0.2 0.5 0.42 1.3 0.54 C 2.0 0.64 3.2 0.68 4.4 0.62 C 5.8 0.5 7.2 0.26 8.42 0.08 L 8.42 0',
    )
    .lines(
      'M 1.3 0 L 1.3 0.54 M 1.92 0 C 1.94 0.2 2.0 0.4 2.1 0.52 L 2.76 0.46 L 2.76 0 M 2.9 0.6 L 4.8 0.54',
    )
    .body('M 6.4 0.03 L 8.76 0.04 L 8.86 0 L 8.76 -0.04 L 6.4 -0.03 Z')
    .line('M -0.3 0 L 9.2 0', 'centre');
  const wing = size.spanM / twin.span;
  return {
    marks: pen.marks,
    zones: {
      nose: pen.at(0.5, 0.1),
      propeller: pen.at(1.62, 2.6),
      engine_bay: pen.at(2.3, 1.92),
      cabin: pen.at(3.4, 0.3),
      fuel: { x: 3.2 * scale, y: 3.05 * wing },
      wing: { x: 3.4 * scale, y: -4.4 * wing },
      gear: pen.at(3.3, 1.92),
      tail_boom: pen.at(6.1, 0.1),
      tail: pen.at(7.9, 1.0),
    },
    left: -0.3,
    right: size.lengthM + 0.3,
    top: -size.spanM / 2,
    bottom: size.spanM / 2,
  };
}
