import type { ReactNode } from 'react';
import styles from './LeaderNote.module.css';

/**
 * Words at the end of a leader line. `side` is where the thing pointed at stands: the arrow leaves
 * the words on that side and falls to it.
 */
export function LeaderNote({
  children,
  second,
  side = 'left',
}: {
  children: ReactNode;
  second?: ReactNode;
  side?: 'left' | 'right';
}) {
  return (
    <div className={styles.note} data-side={side}>
      <svg className={styles.line} viewBox="0 0 56 44" aria-hidden="true">
        <path d="M56 .5H34L6 40" fill="none" stroke="currentColor" />
        <path d="M3.6 43.4 6.3 33.6 11.6 37.3Z" fill="currentColor" />
      </svg>
      <div className={styles.words}>
        <span>{children}</span>
        {second === undefined ? null : <div className={styles.second}>{second}</div>}
      </div>
    </div>
  );
}

/** The same leader inside a drawing, from a dot on the thing to where its words begin. */
export function LeaderLine({
  from,
  to,
  dot,
}: {
  /** The point on the thing, in the drawing's units. */
  from: { x: number; y: number };
  /** Where the words or the balloon begin. */
  to: { x: number; y: number };
  /** Radius of the dot in the drawing's units. */
  dot: number;
}) {
  return (
    <g>
      <line
        x1={from.x}
        y1={from.y}
        x2={to.x}
        y2={to.y}
        stroke="currentColor"
        strokeWidth="1"
        vectorEffect="non-scaling-stroke"
      />
      <circle cx={from.x} cy={from.y} r={dot} fill="currentColor" />
    </g>
  );
}
