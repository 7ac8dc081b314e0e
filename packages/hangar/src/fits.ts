import { type AircraftShape, footprint } from './footprint.ts';
import { formatMetres, type Metres, metres } from './metres.ts';

/** An aircraft as it would be put on a stand. */
export interface ParkedAircraft {
  readonly registration: string;
  readonly shape: AircraftShape;
  /** Degrees clockwise from the stand's length; 0 when left out. */
  readonly heading?: number;
}

export interface Stand {
  readonly id: string;
  /** As it is marked on the floor: "2" in "stand 2". */
  readonly name: string;
  readonly lengthM: Metres;
  readonly widthM: Metres;
  /** Free height under the roof, where it matters. */
  readonly heightM?: Metres;
}

/** The shop's own rule for free room; about 1 m from wing to wall is common practice, no source. */
export interface Clearance {
  /** On every side of the aircraft. */
  readonly aroundM: Metres;
  /** Above it; 0 when left out. */
  readonly aboveM?: Metres;
}

export type Fit = { readonly fits: true } | { readonly fits: false; readonly sentence: string };

/**
 * Whether an aircraft fits a stand with the shop's clearance on both sides.
 *
 * Formula: parked length + 2 × clearance ≤ the stand's length, the same across, and height + clearance
 * above ≤ the stand's free height. Exactly as much room as is needed fits.
 *
 * @returns that it fits, or a sentence with what was refused, what the aircraft measures, what it
 *   needs and what the stand has.
 * @throws RangeError for a length that is negative or no number.
 * @example fits({ registration: 'QQ-117', shape: { kind: 'helicopter_four_seat', lengthM: 10.9, spanM: 10.1, heightM: 3, parkedLengthM: 10.9, parkedWidthM: 2.2 } }, { id: 's2', name: '2', lengthM: 12, widthM: 6 }, { aroundM: 1 }) // → { fits: false, sentence: "Cannot plan QQ-117 on stand 2: parked it is 10.9 m long and needs 12.9 m with the shop's clearance; the stand is 12.0 m" }
 */
export function fits(aircraft: ParkedAircraft, stand: Stand, clearance: Clearance): Fit {
  const { registration, shape, heading = 0 } = aircraft;
  const { alongM, acrossM } = footprint(shape, { heading });
  const around = metres(clearance.aroundM, 'clearance');
  const above = metres(clearance.aboveM ?? 0, 'clearance above');
  const lacks = [
    lack('long', alongM, metres(alongM + 2 * around), stand.lengthM, ''),
    lack('wide', acrossM, metres(acrossM + 2 * around), stand.widthM, ' wide'),
    stand.heightM === undefined
      ? undefined
      : lack('high', shape.heightM, metres(shape.heightM + above), stand.heightM, ' high'),
  ].filter((sentence) => sentence !== undefined);
  return lacks.length === 0
    ? { fits: true }
    : {
        fits: false,
        sentence: `Cannot plan ${registration} on stand ${stand.name}: parked it is ${lacks.join('; it is ')}`,
      };
}

// A tenth of a millimetre: below any tape measure, above what adding floats leaves behind.
const HAIR = 0.0001;

function lack(
  how: 'long' | 'wide' | 'high',
  is: Metres,
  needs: Metres,
  has: Metres,
  dimension: string,
): string | undefined {
  const available = metres(has, `the stand's room`);
  if (needs <= available + HAIR) {
    return undefined;
  }
  // To 10 cm "needs 12.0 m; the stand is 12.0 m" would explain nothing: then the full figures are shown.
  const same = formatMetres(needs) === formatMetres(available);
  const write = (length: Metres) =>
    same ? `${Number(length.toFixed(4))} m` : formatMetres(length);
  return `${write(is)} ${how} and needs ${write(needs)} with the shop's clearance; the stand is ${write(available)}${dimension}`;
}
