import type { Stand } from './floor-documents.ts';
import type { FloorNote } from './floor-words.ts';
import type { Parked } from './leaders.ts';
import type { Standing } from './standing.ts';

export interface DrawnAircraft extends Standing {
  note: FloorNote;
  /** The number of its balloon. */
  number: number;
}

/** Millimetres of the API as metres of the drawing. */
export const inMetres = (millimetres: number): number => millimetres / 1000;

/** Metres drawn around the inside of the hangar: walls, figures and the door's dimension. */
export const MARGIN = 1.6;

/** What the drawing of a hangar shows in all, metres. */
export const drawnBox = (hangar: { widthMm: number; depthMm: number }) => ({
  width: inMetres(hangar.widthMm) + 2 * MARGIN,
  depth: inMetres(hangar.depthMm) + 2 * MARGIN + 0.6,
});

/** Where an aircraft is drawn, which way it points, and where its stand ends before its nose. */
interface Pose extends Parked {
  heading: number;
  nose: { x: number; y: number };
}

export type Place = DrawnAircraft & Pose;

/** Two at one place are drawn apart, so that both are seen; that they cannot stand so is said beside. */
export function placeOf(
  { stay, part }: DrawnAircraft,
  stands: readonly Stand[],
  drawn: readonly DrawnAircraft[],
): Pose {
  const stand = stands.find(({ id }) => id === stay.stand.id);
  const { parkedLengthMm, parkedWidthMm } = stay.aircraft.model;
  const heading = stand?.headingDeg ?? 0;
  const across = heading % 180 !== 0;
  const same = drawn.filter((each) => each.stay.stand.id === stay.stand.id);
  const index = same.findIndex((each) => each.stay.id === stay.id && each.part === part);
  const apart = (index - (same.length - 1) / 2) * inMetres(Math.min(parkedWidthMm, 3600));
  const x = inMetres((stand?.xMm ?? 0) + (stand?.widthMm ?? 0) / 2) + (across ? 0 : apart);
  const y = inMetres((stand?.yMm ?? 0) + (stand?.depthMm ?? 0) / 2) + (across ? apart : 0);
  const ahead = inMetres((across ? stand?.widthMm : stand?.depthMm) ?? 0) / 2 - 0.6;
  const turn = (heading * Math.PI) / 180;
  return {
    id: `${stay.id} ${part}`,
    x,
    y,
    width: inMetres(across ? parkedLengthMm : parkedWidthMm),
    depth: inMetres(across ? parkedWidthMm : parkedLengthMm),
    lies: across ? 'across' : 'along',
    heading,
    nose: { x: x + Math.sin(turn) * ahead, y: y - Math.cos(turn) * ahead },
  };
}
