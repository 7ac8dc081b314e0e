import { type Metres, metres } from './metres.ts';

export const aircraftKinds = [
  'helicopter_two_seat',
  'helicopter_four_seat',
  'airplane_single',
  'airplane_twin',
] as const;
export type AircraftKind = (typeof aircraftKinds)[number];

/** The size of an aircraft, in flight and as it is parked. */
export interface AircraftShape {
  readonly kind: AircraftKind;
  readonly lengthM: Metres;
  /** Wing span, or rotor diameter. */
  readonly spanM: Metres;
  readonly heightM: Metres;
  /** As it stands on its stand: a helicopter with its blades turned fore-and-aft is longer and narrower. */
  readonly parkedLengthM: Metres;
  readonly parkedWidthM: Metres;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The ground an aircraft takes, about its own middle. */
export interface Footprint {
  /** Nose right, nose left, tail left, tail right, in metres: y along the stand, x across it. */
  readonly corners: readonly [Point, Point, Point, Point];
  /** What it takes along and across the stand. */
  readonly alongM: Metres;
  readonly acrossM: Metres;
}

/**
 * The ground a parked aircraft takes: the rectangle of its parked length and width, turned.
 *
 * Formula: along = L·|cos h| + W·|sin h|, across = L·|sin h| + W·|cos h|, the sides of the upright
 * rectangle around one turned by h (plane geometry).
 *
 * @param heading degrees clockwise from the stand's length, any finite number; 0 parks it straight.
 * @throws RangeError for a heading that is no number, or a parked length or width of 0.
 * @example footprint({ kind: 'airplane_single', lengthM: 8, spanM: 11, heightM: 2.7, parkedLengthM: 8, parkedWidthM: 11 }).acrossM // → 11
 */
export function footprint(
  shape: AircraftShape,
  { heading = 0 }: { readonly heading?: number } = {},
): Footprint {
  const length = metres(shape.parkedLengthM, 'parked length');
  const width = metres(shape.parkedWidthM, 'parked width');
  if (!Number.isFinite(heading)) {
    throw new RangeError(
      `Cannot park at a heading of ${heading}: give degrees from the stand's length`,
    );
  }
  if (length === 0 || width === 0) {
    throw new RangeError(
      `Cannot park an aircraft ${length} m long and ${width} m wide: give both above 0`,
    );
  }
  const { cosine, sine } = quarterExact(heading);
  const turned = (across: number, along: number): Point => ({
    x: across * cosine + along * sine,
    y: along * cosine - across * sine,
  });
  return {
    corners: [
      turned(width / 2, length / 2),
      turned(-width / 2, length / 2),
      turned(-width / 2, -length / 2),
      turned(width / 2, -length / 2),
    ],
    alongM: metres(length * Math.abs(cosine) + width * Math.abs(sine)),
    acrossM: metres(length * Math.abs(sine) + width * Math.abs(cosine)),
  };
}

/** Cosine and sine of a heading, exact at quarter turns, where a float's π would leave a hair. */
function quarterExact(heading: number): { cosine: number; sine: number } {
  const quarter = (((heading % 360) + 360) % 360) / 90;
  const exact = [
    { cosine: 1, sine: 0 },
    { cosine: 0, sine: 1 },
    { cosine: -1, sine: 0 },
    { cosine: 0, sine: -1 },
  ][quarter];
  const angle = (heading * Math.PI) / 180;
  return exact ?? { cosine: Math.cos(angle), sine: Math.sin(angle) };
}
