import { enters, type Fit, fits, footprint, formatMetres, metres } from '@fairlead/hangar';
import { aircraftSize } from '../../components/Silhouette.tsx';
import type { Floor, Stand, Stay } from './floor-documents.ts';

export type Measured = Pick<Stay['aircraft'], 'registration'> & {
  model: Omit<Stay['aircraft']['model'], 'maker' | 'name'>;
};

const m = (millimetres: number) => metres(millimetres / 1000);

const parked = ({ registration, model }: Measured, heading: number) => {
  const size = aircraftSize(model);
  return {
    registration,
    heading,
    shape: {
      kind: model.kind,
      lengthM: metres(size.lengthM),
      spanM: metres(size.spanM),
      heightM: metres(size.heightM),
      parkedLengthM: metres(size.parkedLengthM),
      parkedWidthM: metres(size.parkedWidthM),
    },
  };
};

const sentenceOf = (fit: Fit) => (fit.fits ? null : `${fit.sentence}.`);

/**
 * Why an aircraft has no room on a stand, in a sentence with the figures; null where it fits. The
 * same rule answers in the API: here it only spares a refusal.
 *
 * @param inside it stands in this hangar, so that the door is behind it
 */
export function whyNot(
  aircraft: Measured,
  stand: Stand,
  { clearanceMm, hangar }: Floor,
  { inside = false }: { inside?: boolean } = {},
): string | null {
  const building = {
    name: hangar.name,
    widthM: m(hangar.widthMm),
    depthM: m(hangar.depthMm),
    doorWidthM: m(hangar.doorWidthMm),
  };
  const entry = inside ? null : sentenceOf(enters(parked(aircraft, 0), building));
  if (entry !== null) return entry;
  const room = {
    id: stand.id,
    name: stand.name.replace(/^stand\s+/i, ''),
    lengthM: m(stand.depthMm),
    widthM: m(stand.widthMm),
  };
  const around = { aroundM: m(clearanceMm) };
  return sentenceOf(fits(parked(aircraft, stand.headingDeg), room, around));
}

/** What is left of a stand beyond the aircraft and its clearance: "0.3 m over in length and 0.6 m in width". */
export function roomLeft(aircraft: Measured, stand: Stand, { clearanceMm }: Floor): string {
  const { shape, heading } = parked(aircraft, stand.headingDeg);
  const { alongM, acrossM } = footprint(shape, { heading });
  const over = (hasMm: number, is: number) =>
    formatMetres(metres(Math.max(0, (hasMm - 2 * clearanceMm) / 1000 - is)));
  return `${over(stand.depthMm, alongM)} over in length and ${over(stand.widthMm, acrossM)} in width`;
}
