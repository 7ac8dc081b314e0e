import type { ReactNode } from 'react';

/** A place on a drawing that is as wide as its room: marks keep their size, their places are shares. */
export function At({ x, y, children }: { x: string; y: string; children: ReactNode }) {
  return (
    <svg x={x} y={y} overflow="visible" aria-hidden="true">
      {children}
    </svg>
  );
}

/** The end of a dimension: its extension line, `up` and `down` long, and the oblique stroke across. */
export function End({
  x,
  y,
  up = 8,
  down = 10,
}: {
  x: string;
  y: string;
  up?: number;
  down?: number;
}) {
  return (
    <At x={x} y={y}>
      <path d={`M0-${up}V${down}`} stroke="currentColor" />
      <path d="M-5 5 5-5" stroke="currentColor" strokeWidth="2" />
    </At>
  );
}
