import type { Fit, ParkedAircraft } from './fits.ts';
import { footprint } from './footprint.ts';
import { formatMetres, type Metres, metres } from './metres.ts';

/** A building as far as an aircraft must get into it. */
export interface HangarRoom {
  readonly name: string;
  /** Along the door wall, inside. */
  readonly widthM: Metres;
  /** From the door to the back wall, inside. */
  readonly depthM: Metres;
  readonly doorWidthM: Metres;
}

/**
 * Whether a parked aircraft gets into a hangar at all: it goes in nose or tail first, so its parked width must pass
 * the door and its parked length stand between door and back wall; a stand may turn it afterwards.
 *
 * Formula: parked width ≤ door width, and the parked length by the width inside the building, straight or at a
 * quarter turn. No clearance is asked of the door: people walk at the wing tips (common practice, no source).
 *
 * @returns that it gets in, or a sentence with what it measures and what there is.
 * @throws RangeError for a length that is negative or no number.
 * @example enters({ registration: 'QQ-900', shape: { kind: 'airplane_twin', lengthM: 12, spanM: 16, heightM: 4, parkedLengthM: 12, parkedWidthM: 16 } }, { name: 'Hangar 2', widthM: 35, depthM: 25, doorWidthM: 14.4 }) // → { fits: false, sentence: "Cannot bring QQ-900 into Hangar 2: parked it is 16.0 m wide; the door is 14.4 m wide" }
 */
export function enters({ registration, shape }: ParkedAircraft, hangar: HangarRoom): Fit {
  const { alongM, acrossM } = footprint(shape);
  const width = metres(hangar.widthM, 'hangar width');
  const depth = metres(hangar.depthM, 'hangar depth');
  const door = metres(hangar.doorWidthM, 'door width');
  const no = (why: string): Fit => ({
    fits: false,
    sentence: `Cannot bring ${registration} into ${hangar.name}: parked it is ${why}`,
  });
  const stands = (alongM <= depth && acrossM <= width) || (alongM <= width && acrossM <= depth);
  if (!stands)
    return no(
      `${formatMetres(alongM)} long and ${formatMetres(acrossM)} wide; inside, the hangar is ${formatMetres(width)} by ${formatMetres(depth)}`,
    );
  if (acrossM > door)
    return no(`${formatMetres(acrossM)} wide; the door is ${formatMetres(door)} wide`);
  return { fits: true };
}
