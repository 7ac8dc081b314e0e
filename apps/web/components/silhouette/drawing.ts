import type { AircraftKind } from '@fairlead/hangar';

export type { AircraftKind };

/** A model's dimensions in metres, each above zero. */
export interface AircraftSize {
  /** Foremost to rearmost point of the airframe: propeller and tail rotor counted, main rotor not. */
  lengthM: number;
  /** Wing span, or diameter of the main rotor. */
  spanM: number;
  /** Ground to the highest point. */
  heightM: number;
  /** The footprint as parked, blades turned fore and aft. */
  parkedLengthM: number;
  parkedWidthM: number;
}

/** Places on an aircraft that a balloon or a leader can point at. */
export type Zone =
  | 'nose'
  | 'cabin'
  | 'engine_bay'
  | 'fuel'
  | 'mast'
  | 'main_rotor'
  | 'propeller'
  | 'wing'
  | 'gear'
  | 'tail_boom'
  | 'tail_rotor'
  | 'tail';

/**
 * A model's dimensions as the API gives them, in millimetres.
 *
 * @example aircraftSize({ lengthMm: 8200, spanMm: 10900, heightMm: 2700, parkedLengthMm: 8200, parkedWidthMm: 10900 }).spanM // → 10.9
 */
export function aircraftSize(model: {
  lengthMm: number;
  spanMm: number;
  heightMm: number;
  parkedLengthMm: number;
  parkedWidthMm: number;
}): AircraftSize {
  return {
    lengthM: model.lengthMm / 1000,
    spanM: model.spanMm / 1000,
    heightM: model.heightMm / 1000,
    parkedLengthM: model.parkedLengthMm / 1000,
    parkedWidthM: model.parkedWidthMm / 1000,
  };
}

export interface Point {
  x: number;
  y: number;
}

/** A stroke of the drawing. A filled one hides what lies behind it. */
export interface Mark {
  d: string;
  weight: 'outline' | 'hair' | 'centre' | 'hidden';
  filled?: true;
}

/** A view in metres, x aft from the nose; y down, from the ground or from the plane of symmetry. */
export interface Drawing {
  marks: readonly Mark[];
  zones: Readonly<Partial<Record<Zone, Point>>>;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** A path of absolute M, L, C and Q commands moved into place: x·sx + dx, y·sy + dy. */
export function place(d: string, sx: number, sy: number, dx = 0, dy = 0): string {
  return d.replace(/(-?[\d.]+) (-?[\d.]+)/g, (_, x: string, y: string) => {
    return `${round(Number(x) * sx + dx)} ${round(Number(y) * sy + dy)}`;
  });
}

/** A circle as a path. */
export function ring(x: number, y: number, r: number): string {
  const [width, radius] = [round(2 * r), round(r)];
  return `M${round(x - r)} ${round(y)}a${radius} ${radius} 0 1 0 ${width} 0a${radius} ${radius} 0 1 0 ${-width} 0Z`;
}

/** Centre lines across a circle, a little longer than it. */
export function cross(x: number, y: number, r: number): string {
  const reach = r * 1.25;
  return `M${round(x - reach)} ${round(y)}H${round(x + reach)}M${round(x)} ${round(y - reach)}V${round(y + reach)}`;
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}

/** Strokes drawn in one reference airframe, placed to a model's dimensions. */
export class Pen {
  readonly marks: Mark[];
  readonly #sx: number;
  readonly #sy: number;

  constructor(sx: number, sy: number, marks: Mark[] = []) {
    this.#sx = sx;
    this.#sy = sy;
    this.marks = marks;
  }

  /** The same sheet with another scale across, such as the wing's. */
  scaled(sy: number): Pen {
    return new Pen(this.#sx, sy, this.marks);
  }

  body(d: string): this {
    this.marks.push({ d: place(d, this.#sx, this.#sy), weight: 'outline', filled: true });
    return this;
  }

  line(d: string, weight: Mark['weight'] = 'hair'): this {
    this.marks.push({ d: place(d, this.#sx, this.#sy), weight });
    return this;
  }

  /** Both halves of a symmetrical shape; open along the plane of symmetry. */
  bodies(d: string): this {
    return this.body(d).mirrored(d, 'outline', true);
  }

  lines(d: string, weight: Mark['weight'] = 'hair'): this {
    return this.line(d, weight).mirrored(d, weight, false);
  }

  mirrored(d: string, weight: Mark['weight'], filled: boolean): this {
    const mark: Mark = { d: place(d, this.#sx, -this.#sy), weight };
    this.marks.push(filled ? { ...mark, filled: true } : mark);
    return this;
  }

  /** A round part stays round whatever the airframe's proportions. */
  wheel(x: number, y: number, r: number, weight: 'outline' | 'hair' = 'outline'): this {
    const { x: cx, y: cy } = this.at(x, y);
    const radius = r * Math.min(Math.abs(this.#sx), Math.abs(this.#sy));
    const mark: Mark = { d: ring(cx, cy, radius), weight };
    this.marks.push(weight === 'outline' ? { ...mark, filled: true } : mark);
    return this;
  }

  at(x: number, y: number): Point {
    return { x: round(x * this.#sx), y: round(y * this.#sy) };
  }
}
