import { type Certificate, certificateNames, isGoodOn } from './certificate.ts';
import type { CivilDate } from './civil-date.ts';

/** What a person finds before equipment may stay inoperative: 14 CFR 91.213(d)(2) to (4), in our own words. */
export const inoperativeQuestions = [
  {
    key: 'notTypeBasis',
    paragraph: '91.213(d)(2)(i)',
    asks: 'not among the instruments and equipment for flight by day under visual rules that the aircraft was type certificated with',
  },
  {
    key: 'notListed',
    paragraph: '91.213(d)(2)(ii)',
    asks: "not marked as required on the aircraft's equipment list, or on the list of kinds of operation for the flights to be made",
  },
  {
    key: 'notRuled',
    paragraph: '91.213(d)(2)(iii)',
    asks: 'not required by 91.205 or another rule of part 91 for the flights to be made',
  },
  {
    key: 'notDirected',
    paragraph: '91.213(d)(2)(iv)',
    asks: 'not required to work by an airworthiness directive',
  },
  {
    key: 'noHazard',
    paragraph: '91.213(d)(4)',
    asks: 'no hazard to the aircraft while it does not work',
  },
] as const;

export type InoperativeQuestion = (typeof inoperativeQuestions)[number]['key'];

/** How equipment is kept from being used: 14 CFR 91.213(d)(3). */
export type InoperativeMethod = 'removed' | 'deactivated';

export interface InoperativeWords {
  readonly equipment: string;
  readonly method: InoperativeMethod;
  /** Where the placard "Inoperative" is. */
  readonly placardAt: string;
}

/**
 * One sentence of an entry for equipment left inoperative: 14 CFR 91.213(d)(3), 43.9 and 43.11(b).
 *
 * @example inoperativeLine({ equipment: 'Clock', method: 'deactivated', placardAt: 'on its face' }) // → 'Clock: deactivated and placarded "Inoperative" (on its face), as 14 CFR 91.213(d) permits.'
 */
export const inoperativeLine = ({ equipment, method, placardAt }: InoperativeWords) =>
  `${equipment}: ${method === 'removed' ? 'removed, its cockpit control' : 'deactivated and'} placarded "Inoperative" (${placardAt}), as 14 CFR 91.213(d) permits.`;

type Held = Pick<Certificate, 'kind' | 'number' | 'validFrom' | 'validUntil'>;

/**
 * Whether a person may find that inoperative equipment is no hazard: a pilot, or somebody certificated and rated to maintain
 * the aircraft (14 CFR 91.213(d)(4)). A station's people answer under its certificate.
 *
 * @param powerplant it belongs to an engine or a propeller; else to the airframe
 * @example mayLeaveInoperative([], { powerplant: false, stationInspector: false }, '2026-03-14').allowed // → false
 */
export function mayLeaveInoperative(
  held: readonly Held[],
  { powerplant, stationInspector }: { powerplant: boolean; stationInspector: boolean },
  on: CivilDate,
): { allowed: true; as: string } | { allowed: false; because: string } {
  if (stationInspector) return { allowed: true, as: 'inspector of the repair station' };
  const kinds = [
    powerplant ? 'mechanic_powerplant' : 'mechanic_airframe',
    'private_pilot',
  ] as const;
  for (const kind of kinds) {
    const good = held.find((one) => one.kind === kind && isGoodOn(one, on));
    if (good) return { allowed: true, as: `${certificateNames[kind]} ${good.number}` };
  }
  return {
    allowed: false,
    because: `14 CFR 91.213(d)(4) asks for a pilot, or a person certificated and rated to maintain the aircraft: needed is a ${certificateNames[kinds[0]]} or a pilot certificate that is good on ${on}`,
  };
}
