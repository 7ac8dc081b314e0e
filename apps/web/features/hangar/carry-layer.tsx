'use client';

import { memo, type RefObject, useSyncExternalStore } from 'react';
import { AircraftPlan, aircraftSize } from '../../components/Silhouette.tsx';
import styles from './carry.module.css';
import { middleOf, type PlanPoint, type Target } from './carry.ts';
import type { CarryStore } from './carry-store.ts';
import type { Floor, Stay } from './floor-documents.ts';
import { inMetres } from './pose.ts';

/**
 * What is in hand, over the drawing: the aircraft at the hand, and where it would stand, both with the parked footprint
 * and the shop's clearance to scale. Two layers of their own, so that neither paints the drawing again.
 */
export function CarryLayer({
  store,
  floor,
  viewBox,
  left,
  top,
  ghost,
}: {
  store: CarryStore;
  floor: Floor;
  viewBox: string;
  /** Where metres of the plan lie in the layer, per cent. */
  left: (x: number) => string;
  top: (y: number) => string;
  ghost: RefObject<HTMLDivElement | null>;
}) {
  const state = useSyncExternalStore(store.subscribe, store.state, store.state);
  if (state.step === 'none') return null;
  const { what, target } = state;
  const verdict = store.verdict(target);
  const look = verdict?.kind === 'tight' || verdict?.kind === 'taken' ? 'refused' : 'good';
  const { parkedLengthMm, parkedWidthMm } = what.aircraft.model;
  const longest = Math.max(parkedLengthMm, parkedWidthMm) + 2 * floor.clearanceMm;
  const inHand = state.step === 'carried' && state.by === 'pointer';
  return (
    <div className={styles.layer} data-screen-only aria-hidden="true">
      {target === null ? null : (
        <svg viewBox={viewBox} data-look={look} data-carry="place" aria-hidden="true">
          <Goal floor={floor} target={target} aircraft={what.aircraft} outline={!inHand} />
        </svg>
      )}
      {inHand ? (
        <div className={styles.ghost} ref={ghost}>
          <svg viewBox={viewBox} data-look={look} data-carry="hand" aria-hidden="true">
            <Parked
              aircraft={what.aircraft}
              floor={floor}
              at={HAND}
              heading={headingFor(floor, target, what.stay)}
            />
          </svg>
          <span
            className={styles.tag}
            data-look={look}
            style={{ left: left(0), top: top(inMetres(longest) / 2) }}
          >
            {what.aircraft.registration}
            {verdict === null ? '' : ` · ${verdict.short}`}
          </span>
        </div>
      ) : null}
    </div>
  );
}

/** The middle of what is in hand, in its own layer. */
const HAND: PlanPoint = { x: 0, y: 0 };

/** Over a stand it is turned as that stand is; elsewhere as it stood. */
function headingFor(floor: Floor, target: Target | null, stay: Stay | null): number {
  if (target?.kind === 'stand') return target.stand.headingDeg;
  return floor.stands.find(({ id }) => id === stay?.stand.id)?.headingDeg ?? 180;
}

function Goal({
  floor,
  target,
  aircraft,
  outline,
}: {
  floor: Floor;
  target: Target;
  aircraft: Stay['aircraft'];
  outline: boolean;
}) {
  const middle = middleOf(floor, target);
  if (target.kind === 'door') {
    const { doorFromMm, doorWidthMm, depthMm } = floor.hangar;
    const [from, to, wall] = [doorFromMm, doorFromMm + doorWidthMm, depthMm].map(inMetres);
    return (
      <path
        className={styles.goal}
        d={`M${from} ${wall}H${to}M${middle.x} ${wall}v1.6m-.5-.7l.5.7.5-.7`}
      />
    );
  }
  const { xMm, yMm, widthMm, depthMm, headingDeg } = target.stand;
  return (
    <>
      <rect
        className={styles.goal}
        x={inMetres(xMm)}
        y={inMetres(yMm)}
        width={inMetres(widthMm)}
        height={inMetres(depthMm)}
      />
      <Parked
        aircraft={aircraft}
        floor={floor}
        at={middle}
        heading={headingDeg}
        outline={outline}
      />
    </>
  );
}

/**
 * The parked footprint with the aircraft's outline in it, and around it the shop's clearance. What is in hand is drawn
 * again only where it turns, not at each new target.
 */
const Parked = memo(function Parked({
  aircraft: { model },
  floor,
  at,
  heading,
  outline = true,
}: {
  aircraft: Stay['aircraft'];
  floor: Floor;
  at: PlanPoint;
  heading: number;
  /** Once is enough where the aircraft in hand is drawn beside it. */
  outline?: boolean;
}) {
  const size = aircraftSize(model);
  const clearance = inMetres(floor.clearanceMm);
  return (
    <g transform={`translate(${at.x} ${at.y}) rotate(${90 + heading})`}>
      <rect
        className={styles.clearance}
        data-carry="clearance"
        x={-size.parkedLengthM / 2 - clearance}
        y={-size.parkedWidthM / 2 - clearance}
        width={size.parkedLengthM + 2 * clearance}
        height={size.parkedWidthM + 2 * clearance}
      />
      {outline ? (
        <AircraftPlan kind={model.kind} size={size} fill="none" footprint />
      ) : (
        <rect
          className={styles.footprint}
          x={-size.parkedLengthM / 2}
          y={-size.parkedWidthM / 2}
          width={size.parkedLengthM}
          height={size.parkedWidthM}
        />
      )}
    </g>
  );
});
