import type { AircraftKind } from '@fairlead/database';
import { type AircraftShape, enters, type Fit, fits, metres } from '@fairlead/hangar';

/** What must be known of an aircraft and a stand, in millimetres, to say whether one fits on the other. */
export const aircraftSize = {
  registration: true,
  model: {
    select: {
      kind: true,
      lengthMm: true,
      spanMm: true,
      heightMm: true,
      parkedLengthMm: true,
      parkedWidthMm: true,
    },
  },
} as const;
export const standSize = {
  id: true,
  name: true,
  widthMm: true,
  depthMm: true,
  headingDeg: true,
} as const;

export const hangarSize = {
  name: true,
  widthMm: true,
  depthMm: true,
  doorWidthMm: true,
} as const;

export interface AircraftSize {
  registration: string;
  model: {
    kind: AircraftKind;
    lengthMm: number;
    spanMm: number;
    heightMm: number;
    parkedLengthMm: number;
    parkedWidthMm: number;
  };
}
export interface StandSize {
  id: string;
  name: string;
  widthMm: number;
  depthMm: number;
  headingDeg: number;
}

export interface HangarSize {
  name: string;
  widthMm: number;
  depthMm: number;
  doorWidthMm: number;
}

const m = (millimetres: number) => metres(millimetres / 1000);

/** A stand's name as sentences use it: they say "stand 2", whether it is called "2" or "Stand 2". */
export const shortName = (name: string) => name.replace(/^stand\s+/i, '');

const shapeOf = ({ model }: AircraftSize): AircraftShape => ({
  kind: model.kind,
  lengthM: m(model.lengthMm),
  spanM: m(model.spanMm),
  heightM: m(model.heightMm),
  parkedLengthM: m(model.parkedLengthMm),
  parkedWidthM: m(model.parkedWidthMm),
});

/** Whether an aircraft fits a stand with the shop's clearance; the sentence says why not. */
export function fitsOn(aircraft: AircraftSize, stand: StandSize, clearanceMm: number): Fit {
  return fits(
    {
      registration: aircraft.registration,
      shape: shapeOf(aircraft),
      heading: stand.headingDeg,
    },
    // The depth of a stand runs up the drawing, which is where a heading of 0 points.
    {
      id: stand.id,
      name: shortName(stand.name),
      lengthM: m(stand.depthMm),
      widthM: m(stand.widthMm),
    },
    { aroundM: m(clearanceMm) },
  );
}

/** Whether an aircraft gets into the building at all. */
export function getsInto(aircraft: AircraftSize, hangar: HangarSize): Fit {
  return enters(
    { registration: aircraft.registration, shape: shapeOf(aircraft) },
    {
      name: hangar.name,
      widthM: m(hangar.widthMm),
      depthM: m(hangar.depthMm),
      doorWidthM: m(hangar.doorWidthMm),
    },
  );
}
