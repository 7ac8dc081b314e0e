import type { ReactNode } from 'react';
import { Balloon } from './Balloon.tsx';
import styles from './Silhouette.module.css';
import { balloonPlaces, type PlacedBalloon } from './silhouette/balloons.ts';
import { drawAircraft, type View } from './silhouette/draw.ts';
import type { AircraftKind, AircraftSize, Drawing, Zone } from './silhouette/drawing.ts';

export type { AircraftKind, AircraftSize, Zone } from './silhouette/drawing.ts';
export { aircraftSize } from './silhouette/drawing.ts';

export interface SilhouetteBalloon {
  number: number;
  zone: Zone;
  /** The row of the list that carries the same number. */
  href?: string;
  /** What it points at, for readers by ear. */
  label?: string;
}

/**
 * Our own line drawing of an aircraft kind, to scale from the model's dimensions, with balloons on
 * their leader lines above and below it.
 */
export function Silhouette({
  kind,
  size,
  view = 'side',
  balloons = [],
  label,
  caption,
  hairline = false,
}: {
  kind: AircraftKind;
  size: AircraftSize;
  view?: View;
  balloons?: readonly SilhouetteBalloon[];
  /** What the drawing shows, for readers by ear. */
  label: string;
  caption?: ReactNode;
  /** All in the light weight: for empty states. */
  hairline?: boolean;
}) {
  const drawing = drawAircraft(kind, size, view);
  const { placed, box } = balloonPlaces(drawing, balloons);
  const left = (x: number) => `${((x - box.left) / (box.right - box.left)) * 100}%`;
  const top = (y: number) => `${((y - box.top) / (box.bottom - box.top)) * 100}%`;
  return (
    <figure className={styles.figure} data-hairline={hairline ? '' : undefined}>
      <div className={styles.place}>
        <svg
          className={styles.svg}
          role="img"
          aria-label={label}
          viewBox={`${box.left} ${box.top} ${box.right - box.left} ${box.bottom - box.top}`}
        >
          <Marks drawing={drawing} />
          {placed.map((each) => (
            <line
              key={each.number}
              className={styles.leader}
              x1={each.zone.x}
              y1={each.zone.y}
              x2={each.at.x}
              y2={each.at.y}
            />
          ))}
        </svg>
        {placed.map((each: PlacedBalloon<SilhouetteBalloon>) => (
          <span key={each.number}>
            <span
              className={styles.dot}
              style={{ left: left(each.zone.x), top: top(each.zone.y) }}
            />
            <span className={styles.balloon} style={{ left: left(each.at.x), top: top(each.at.y) }}>
              <Balloon
                number={each.number}
                {...(each.balloon.href === undefined ? {} : { href: each.balloon.href })}
                {...(each.balloon.label === undefined ? {} : { label: each.balloon.label })}
              />
            </span>
          </span>
        ))}
      </div>
      {caption === undefined ? null : <figcaption className={styles.caption}>{caption}</figcaption>}
    </figure>
  );
}

/**
 * The plan view for a drawing in metres, such as the floor: centred on its parked footprint, nose
 * towards −x: `translate(x y) rotate(90)` points it up the page, and a heading clockwise from there
 * adds to the 90. `fill` takes a `hatchFill`.
 */
export function AircraftPlan({
  kind,
  size,
  transform,
  fill,
  footprint = false,
}: {
  kind: AircraftKind;
  size: AircraftSize;
  transform?: string;
  fill?: string;
  /** Draws the parked footprint around it. */
  footprint?: boolean;
}) {
  const drawing = drawAircraft(kind, size, 'plan');
  const middle = isHelicopter(kind) ? (drawing.left + drawing.right) / 2 : size.lengthM / 2;
  return (
    <g transform={transform}>
      {footprint ? (
        <rect
          className={styles.footprint}
          x={-size.parkedLengthM / 2}
          y={-size.parkedWidthM / 2}
          width={size.parkedLengthM}
          height={size.parkedWidthM}
        />
      ) : null}
      <g transform={`translate(${-middle} 0)`}>
        <Marks drawing={drawing} parked {...(fill === undefined ? {} : { fill })} />
      </g>
    </g>
  );
}

function Marks({
  drawing,
  fill = 'var(--ground)',
  parked = false,
}: {
  drawing: Drawing;
  fill?: string;
  /** Leaves out centre lines, which would run into the neighbours. */
  parked?: boolean;
}) {
  return drawing.marks.map((mark, index) =>
    parked && mark.weight === 'centre' ? null : (
      <path
        key={index}
        className={styles[mark.weight]}
        d={mark.d}
        style={mark.filled === true ? { fill } : undefined}
      />
    ),
  );
}

function isHelicopter(kind: AircraftKind): boolean {
  return kind === 'helicopter_two_seat' || kind === 'helicopter_four_seat';
}
