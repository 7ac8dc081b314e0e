import { type Certificate, certificateNames, isGoodOn, lastDayOf } from './certificate.ts';
import { type CivilDate, civilDate } from './civil-date.ts';
import {
  type Entitlement,
  type KindOfWork,
  kindsOfWork,
  type StationRating,
  type WorkKind,
} from './kinds-of-work.ts';

type ConditionalKind =
  | 'preventive_maintenance'
  | 'instrument_or_major_propeller_work'
  | 'altimeter_or_static_test'
  | 'work_under_supervision'
  | 'database_update_from_flight_deck';

/** The work to be approved, with the facts its paragraph turns on. */
export type Work =
  | { readonly kind: Exclude<WorkKind, ConditionalKind> }
  | {
      readonly kind: 'preventive_maintenance';
      readonly doneBySigner: boolean;
      readonly ownedOrOperatedBySigner: boolean;
      /** Used under part 121, 129 or 135. */
      readonly usedByCarrier: boolean;
    }
  | {
      readonly kind: 'instrument_or_major_propeller_work';
      readonly item: 'instrument' | 'propeller';
    }
  | { readonly kind: 'altimeter_or_static_test'; readonly extent: 'static_system' | 'altimeter' }
  | {
      readonly kind: 'work_under_supervision';
      readonly supervised: Exclude<Work, { kind: 'work_under_supervision' }>;
      readonly personallyObserved: boolean;
      readonly readilyAvailable: boolean;
      /** An inspection that part 91 or 125 requires, or one after a major repair or alteration. */
      readonly requiredInspection: boolean;
    }
  | {
      readonly kind: 'database_update_from_flight_deck';
      readonly fromFlightDeck: boolean;
      readonly withoutTools: boolean;
    };

export interface Signer {
  readonly id: string;
  readonly name: string;
  readonly certificates: readonly Certificate[];
}

/** What the shop itself is: people with mechanics' certificates, or a certificated repair station. */
export type ShopStanding =
  | { readonly kind: 'mechanics' }
  | {
      readonly kind: 'repair_station';
      readonly certificateNumber: string;
      readonly ratings: readonly StationRating[];
      /** Ids of the people on its roster of inspectors (14 CFR 145.161(a)(2), read in its text). */
      readonly inspectors: readonly string[];
    };

export type MayApprove =
  | {
      readonly allowed: true;
      /** In what capacity, with the number: what goes beside the signature. */
      readonly as: string;
      readonly paragraphs: string;
      readonly record: string;
    }
  | { readonly allowed: false; readonly because: string };

/**
 * Who may approve: whether a person may approve a piece of work for return to service on a day.
 *
 * It looks at certificates, ratings, their dates and the shop's standing. Whether the person did such work
 * before (14 CFR 65.81(a)) and recently enough (65.83) is for `evidenceLack`. It does not decide
 * airworthiness: a person does.
 *
 * @param on the day of signing; a certificate's last day still counts, the day after does not.
 * @returns the capacity, or a sentence with the paragraph, what it asks for and what is lacking.
 * @throws RangeError for a day that does not exist.
 * @example whoMayApprove({ kind: 'hundred_hour_airframe' }, { id: '1', name: 'Ada', certificates: [{ kind: 'mechanic_airframe', number: '3001', validFrom: '2011-05-02' }] }, { kind: 'mechanics' }, '2026-03-14').as // → 'mechanic, airframe rating, certificate 3001'
 */
export function whoMayApprove(
  work: Work,
  signer: Signer,
  shopStanding: ShopStanding,
  on: CivilDate,
): MayApprove {
  civilDate(on, 'day of signing');
  const kind: KindOfWork = kindsOfWork[work.kind];
  const refuse = (lack: string): MayApprove => ({
    allowed: false,
    because: `${signer.name} cannot approve this ${kind.title} on ${on}: ${kind.paragraphs} asks for ${kind.mayApprove}; ${lack}`,
  });
  if (work.kind === 'work_under_supervision') {
    const lack = supervisionLack(work);
    return lack === undefined
      ? whoMayApprove(work.supervised, signer, shopStanding, on)
      : refuse(lack);
  }
  if (
    work.kind === 'database_update_from_flight_deck' &&
    !(work.fromFlightDeck && work.withoutTools)
  ) {
    return refuse(
      'done with tools or away from the flight deck it is maintenance: enter it as such',
    );
  }
  const lacks: string[] = [];
  for (const entitlement of kind.entitlements) {
    const lack =
      conditionLack(work, entitlement) ?? entitlementLack(entitlement, signer, shopStanding, on);
    if (lack === undefined) {
      const as = capacity(entitlement, signer, shopStanding, on);
      return { allowed: true, as, paragraphs: kind.paragraphs, record: kind.record };
    }
    lacks.push(lack);
  }
  return refuse([...new Set(lacks)].join('; '));
}

function supervisionLack(
  work: Extract<Work, { kind: 'work_under_supervision' }>,
): string | undefined {
  const inspections: readonly WorkKind[] = [
    'hundred_hour_airframe',
    'hundred_hour_powerplant',
    'annual_inspection',
    'progressive_inspection',
  ];
  if (work.requiredInspection || inspections.includes(work.supervised.kind)) {
    return 'supervision does not cover a required inspection or one after a major repair: a person entitled to it must do it themselves';
  }
  if (!work.personallyObserved) {
    return 'the supervisor did not watch the work in person as far as needed';
  }
  return work.readilyAvailable ? undefined : 'the supervisor was not at hand in person';
}

/** Conditions that hang on the facts of the work and on the way of being entitled. */
function conditionLack(work: Work, entitlement: Entitlement): string | undefined {
  if (work.kind === 'preventive_maintenance' && isPilot(entitlement)) {
    if (work.usedByCarrier) {
      return 'a pilot may not do it on an aircraft used under part 121, 129 or 135';
    }
    if (!work.doneBySigner) {
      return 'a pilot may approve only what they did themselves';
    }
    return work.ownedOrOperatedBySigner
      ? undefined
      : 'a pilot may do it only on an aircraft they own or operate';
  }
  if (
    work.kind === 'altimeter_or_static_test' &&
    entitlement.by === 'person' &&
    work.extent === 'altimeter'
  ) {
    return 'a mechanic may test the static system alone, not the altimeter';
  }
  if (
    work.kind === 'instrument_or_major_propeller_work' &&
    entitlement.by === 'repair_station' &&
    entitlement.rating !== work.item
  ) {
    return `it needs the rating for the ${work.item}`;
  }
  return undefined;
}

function isPilot(entitlement: Entitlement): boolean {
  return entitlement.by === 'person' && entitlement.as === 'pilot';
}

function entitlementLack(
  entitlement: Entitlement,
  signer: Signer,
  shopStanding: ShopStanding,
  on: CivilDate,
): string | undefined {
  if (entitlement.by === 'person') {
    const lacks = entitlement.holds.map((kind) => certificateLack(kind, signer, on));
    return lacks.find((lack) => lack !== undefined);
  }
  if (shopStanding.kind === 'mechanics') {
    return "this shop works under mechanics' certificates and is no repair station";
  }
  if (entitlement.rating !== 'any' && !shopStanding.ratings.includes(entitlement.rating)) {
    return `this repair station has no ${entitlement.rating} rating`;
  }
  if (!shopStanding.inspectors.includes(signer.id)) {
    return "they are not on the repair station's roster of inspectors";
  }
  const part65 = ['mechanic_airframe', 'mechanic_powerplant', 'repairman'] as const;
  const holdsOne = part65.some((kind) => certificateLack(kind, signer, on) === undefined);
  return holdsOne
    ? undefined
    : "they hold no mechanic's or repairman's certificate good on that day (part 65)";
}

function certificateLack(
  kind: Certificate['kind'],
  signer: Signer,
  on: CivilDate,
): string | undefined {
  const held = signer.certificates.filter((certificate) => certificate.kind === kind);
  if (held.some((certificate) => isGoodOn(certificate, on))) {
    return undefined;
  }
  const [first] = held;
  if (first === undefined) {
    return `they hold no ${certificateNames[kind]}`;
  }
  const last = lastDayOf(first);
  return last !== undefined && last < on
    ? `their ${certificateNames[kind]} ${first.number} was good through ${last}`
    : `their ${certificateNames[kind]} ${first.number} is good only from ${first.validFrom}`;
}

function capacity(
  entitlement: Entitlement,
  signer: Signer,
  shopStanding: ShopStanding,
  on: CivilDate,
): string {
  if (entitlement.by === 'repair_station') {
    const number =
      shopStanding.kind === 'repair_station'
        ? `, certificate ${shopStanding.certificateNumber}`
        : '';
    return `inspector for the repair station${number}`;
  }
  const [kind] = entitlement.holds;
  const held = signer.certificates.find((one) => one.kind === kind && isGoodOn(one, on));
  return `${entitlement.as}, certificate ${held?.number ?? ''}`;
}
