'use client';

import { type CSSProperties, memo, useLayoutEffect, useRef, useState } from 'react';
import { Balloon } from '../../components/Balloon.tsx';
import { HatchDefinitions, hatchFill } from '../../components/Hatch.tsx';
import { LeaderLine } from '../../components/LeaderNote.tsx';
import { AircraftPlan, aircraftSize } from '../../components/Silhouette.tsx';
import { AircraftHandles } from './aircraft-handles.tsx';
import { Building } from './building.tsx';
import { CarryLayer } from './carry-layer.tsx';
import type { CarryStore } from './carry-store.ts';
import { Delta } from './delta.tsx';
import styles from './floor.module.css';
import type { Floor } from './floor-documents.ts';
import { FloorNotes } from './floor-notes.tsx';
import { hatchOf } from './floor-words.ts';
import { placeNotes } from './leaders.ts';
import { type DrawnAircraft, drawnBox, inMetres, MARGIN, placeOf } from './pose.ts';
import type { Standing } from './standing.ts';
import type { Carrying } from './use-carrying.ts';

/** Room that three lines of words take beside the plan when they wrap, and the least width for them. */
const NOTE_HEIGHT = 132;
const NOTE_WIDTH = 230;
/** The plan's share of the width when the notes stand beside it; the style sheet says the same. */
const PLAN_SHARE = 0.54;
/** What the name of a stand takes in its corner, px: its height, and each letter of "Stand" and of the name. */
const NAME_HEIGHT = 24;
const NAME_LETTER = 9;
/** From the wall to a note's rule, metres. */
const GAP = 2.2;

/** Without the word that is written before it anyway. */
const nameOf = (stand: string) => stand.replace(/^stand\s+/i, '');

/**
 * The hangar in plan, to scale, with what stands in it and two lines of words beside each. Rendered when the floor or
 * the row changes; what is in hand is drawn over it by `CarryLayer`.
 */
export const FloorDrawing = memo(function FloorDrawing({
  floor,
  drawn,
  now,
  row,
  tight,
  label,
  store,
  carrying,
  takes,
  orderHref,
}: {
  floor: Floor;
  drawn: readonly DrawnAircraft[];
  /** Whether the moment drawn is now: only then are states known. */
  now: boolean;
  /** The number of the row that is drawn. */
  row: number | null;
  /** Stands with something on them that cannot be. */
  tight: ReadonlySet<string>;
  label: string;
  store: CarryStore;
  carrying: Carrying;
  /** Whether what is drawn can be taken: a mechanic changes what is, not what will be. */
  takes: boolean;
  /** The order's sheet, for those who have one; the others read the words only. */
  orderHref: (orderId: string) => string | null;
}) {
  const figure = useRef<HTMLElement>(null);
  const width = useWidth(figure);
  const plan = { width: inMetres(floor.hangar.widthMm), depth: inMetres(floor.hangar.depthMm) };
  const box = drawnBox(floor.hangar);
  const viewBox = `${-MARGIN} ${-MARGIN} ${box.width} ${box.depth}`;
  const places = drawn.map((each) => ({ ...each, ...placeOf(each, floor.stands, drawn) }));
  const beside = width * ((1 - PLAN_SHARE) / 2);
  const perMetre = (width * PLAN_SHARE) / box.width;
  const placed =
    beside < NOTE_WIDTH
      ? null
      : placeNotes(places, plan, {
          slot: NOTE_HEIGHT / perMetre,
          gap: GAP,
          names: floor.stands.map(({ name, xMm, yMm }) => {
            const [wide, high] = [(nameOf(name).length + 6) * NAME_LETTER, NAME_HEIGHT];
            return {
              x: inMetres(xMm) + wide / 2 / perMetre,
              y: inMetres(yMm) + high / 2 / perMetre,
              width: wide / perMetre,
              depth: high / perMetre,
            };
          }),
        });
  const unit = placed === null ? box.width / Math.max(width, 1) : 1 / perMetre;
  const left = (x: number) => `${((x + MARGIN) / box.width) * 100}%`;
  const top = (y: number) => `${((y + MARGIN) / box.depth) * 100}%`;
  return (
    <figure className={styles.floor} ref={figure} data-beside={placed === null ? undefined : ''}>
      <HatchDefinitions name="floor" unit={unit} />
      <section className={styles.scroll} aria-label="The drawing">
        <div
          className={styles.plan}
          ref={carrying.plan}
          style={
            {
              minWidth: `${Math.round(box.width * 7)}px`,
              '--proportion': box.width / box.depth,
            } as CSSProperties
          }
        >
          <svg role="img" aria-label={label} viewBox={viewBox} data-drawing="floor">
            <Building hangar={floor.hangar} />
            {floor.stands.map((stand) => (
              <rect
                key={stand.id}
                className={styles.stand}
                data-stand={nameOf(stand.name)}
                data-tight={tight.has(stand.id) ? '' : undefined}
                x={inMetres(stand.xMm)}
                y={inMetres(stand.yMm)}
                width={inMetres(stand.widthMm)}
                height={inMetres(stand.depthMm)}
              />
            ))}
            {places.map((each) => (
              <g
                key={`${each.stay.id} ${each.part}`}
                data-part={each.part}
                data-craft={each.stay.aircraft.registration}
                className={styles.craft}
              >
                <AircraftPlan
                  kind={each.stay.aircraft.model.kind}
                  size={aircraftSize(each.stay.aircraft.model)}
                  transform={`translate(${each.x} ${each.y}) rotate(${90 + each.heading})`}
                  fill={fillOf(each, now)}
                  footprint
                />
              </g>
            ))}
            {placed?.map((note) => (
              <g key={note.id} className={styles.leader}>
                <LeaderLine from={note.from} to={note.to} dot={3.2 * unit} />
              </g>
            ))}
          </svg>
          <Metres width={plan.width} left={left} />
          {floor.stands.map((stand) => (
            <span
              key={stand.id}
              className={styles.standName}
              style={{ left: left(inMetres(stand.xMm)), top: top(inMetres(stand.yMm)) }}
            >
              <span>Stand </span>
              {nameOf(stand.name)}
            </span>
          ))}
          {takes ? (
            <AircraftHandles
              places={places}
              left={left}
              top={top}
              share={{
                across: (metres) => `${(metres / box.width) * 100}%`,
                along: (metres) => `${(metres / box.depth) * 100}%`,
              }}
              carrying={carrying}
            />
          ) : null}
          {places.map((each) => (
            <span
              key={each.id}
              className={styles.marks}
              style={{ left: left(each.nose.x), top: top(each.nose.y) }}
            >
              <span className={styles.balloon}>
                <Balloon
                  number={each.number}
                  href={`#note-${each.number}`}
                  label={each.note.registration}
                />
              </span>
              {each.part === 'there' || row === null ? null : <Delta number={row} />}
            </span>
          ))}
          <CarryLayer
            store={store}
            floor={floor}
            viewBox={viewBox}
            left={left}
            top={top}
            ghost={carrying.ghost}
          />
        </div>
      </section>
      <FloorNotes places={places} placed={placed} top={top} orderHref={orderHref} />
    </figure>
  );
});

function fillOf({ stay, part }: Standing, now: boolean): string {
  if (part === 'leaving') return 'none';
  const state = now && part === 'there' ? hatchOf(stay) : null;
  return hatchFill(state ?? 'planned', 'floor');
}

/** Every fifth metre along the back wall. */
function Metres({ width, left }: { width: number; left: (x: number) => string }) {
  const marks = Array.from({ length: Math.floor(width / 5) + 1 }, (_, index) => index * 5);
  return (
    <div className={styles.metres} aria-hidden="true">
      {marks.map((metre, index) => (
        <span key={metre} style={{ left: left(metre) }}>
          {metre}
          {index === 0 ? ' m' : ''}
        </span>
      ))}
    </div>
  );
}

/** The figure's own width in pixels, 0 until it is known. */
function useWidth(figure: { current: HTMLElement | null }): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = figure.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => setWidth(element.clientWidth));
    setWidth(element.clientWidth);
    watch.observe(element);
    return () => watch.disconnect();
  }, [figure]);
  return width;
}
