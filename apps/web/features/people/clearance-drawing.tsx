import { AircraftPlan } from '../../components/Silhouette.tsx';
import styles from './people.module.css';

/** A two-seat helicopter of nobody's make, as parked; metres. Only the room around it is to be read off. */
const size = {
  lengthM: 6.6,
  spanM: 7.8,
  heightM: 2.8,
  parkedLengthM: 8.9,
  parkedWidthM: 2.2,
};
const SHOWN = { widthM: 15, heightM: 8.4 };

/** Clearance drawn as what it is: the dimension between an aircraft as parked and the line that nothing else crosses. */
export function ClearanceDrawing({ metres }: { metres: number }) {
  const drawn = Math.min(metres, 2.6);
  const [half, beside] = [size.parkedLengthM / 2, size.parkedWidthM / 2];
  const right = half + drawn;
  const foot = beside + drawn;
  const level = foot + 0.5;
  return (
    <figure className={styles.drawing}>
      <svg
        viewBox={`${-SHOWN.widthM / 2} ${-SHOWN.heightM / 2} ${SHOWN.widthM} ${SHOWN.heightM}`}
        role="img"
        aria-label={`A parked aircraft with ${metres} m kept free around it`}
      >
        <rect
          className={styles.keptFree}
          x={-half - drawn}
          y={-beside - drawn}
          width={(half + drawn) * 2}
          height={(beside + drawn) * 2}
        />
        <AircraftPlan kind="helicopter_two_seat" size={size} footprint />
        <g className={styles.dimension}>
          <path
            d={`M${half} ${beside + 0.15}V${level + 0.25}M${right} ${foot + 0.1}V${level + 0.25}`}
          />
          <path d={`M${half - 0.6} ${level}H${right + 0.6}`} />
          <path
            d={`M${half - 0.16} ${level + 0.16}l.32 -.32M${right - 0.16} ${level + 0.16}l.32 -.32`}
          />
        </g>
        <text className={styles.figure} x={half - 0.8} y={level + 0.2} textAnchor="end">
          {`${metres} m`}
        </text>
      </svg>
      <figcaption>
        As parked, blades fore and aft{metres > drawn ? '; drawn shortened' : ''}
      </figcaption>
    </figure>
  );
}
