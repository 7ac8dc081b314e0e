import type { CertificateKind } from './certificate.ts';

/** Ratings of a repair station that decide what it may approve (14 CFR 145.59, by their broad class). */
export type StationRating = 'airframe' | 'powerplant' | 'propeller' | 'radio' | 'instrument';

/** One way to be entitled: certificates held together by the signer, or a rating of the shop. */
export type Entitlement =
  | { readonly by: 'person'; readonly holds: readonly CertificateKind[]; readonly as: string }
  | { readonly by: 'repair_station'; readonly rating: StationRating | 'any' };

export interface KindOfWork {
  readonly title: string;
  readonly mayPerform: string;
  /** Who may approve it for return to service, in words. */
  readonly mayApprove: string;
  readonly record: string;
  readonly paragraphs: string;
  readonly entitlements: readonly Entitlement[];
}

const airframeMechanic: Entitlement = {
  by: 'person',
  holds: ['mechanic_airframe'],
  as: 'mechanic, airframe rating',
};
const powerplantMechanic: Entitlement = {
  by: 'person',
  holds: ['mechanic_powerplant'],
  as: 'mechanic, powerplant rating',
};
// 65.91(c)(1), from memory: an inspection authorization rests on a mechanic's certificate with both ratings.
const inspectionAuthorization: Entitlement = {
  by: 'person',
  holds: ['inspection_authorization', 'mechanic_airframe', 'mechanic_powerplant'],
  as: 'holder of an inspection authorization',
};
const pilots = (['private_pilot', 'commercial_pilot', 'airline_transport_pilot'] as const).map(
  (kind): Entitlement => ({ by: 'person', holds: [kind], as: 'pilot' }),
);
const station = (rating: StationRating | 'any'): Entitlement => ({ by: 'repair_station', rating });

/**
 * Kinds of work and who may approve each for return to service, United States, 14 CFR; the paragraph
 * is named with each. What a mechanic's rating covers is in 65.81, 65.85 and 65.87.
 */
export const kindsOfWork = {
  preventive_maintenance: {
    title: 'preventive maintenance',
    mayPerform:
      'a pilot (not a sport pilot) on an aircraft they own or operate, a mechanic, a repairman, a repair station',
    mayApprove:
      'the pilot who did it, with at least a private pilot certificate, a mechanic or a repair station',
    record: 'entry by 14 CFR 43.9',
    paragraphs: '14 CFR 43.3(g), 43.7(f)',
    entitlements: [...pilots, airframeMechanic, powerplantMechanic, station('any')],
  },
  minor_work_airframe: {
    title: 'minor repair or alteration of the airframe',
    mayPerform: 'a mechanic with the rating, or a person supervised by one',
    mayApprove: 'a mechanic with an airframe rating who did, supervised or inspected it',
    record: 'entry by 14 CFR 43.9',
    paragraphs: '14 CFR 65.81, 65.85, 43.7(b)',
    entitlements: [airframeMechanic, station('airframe')],
  },
  minor_work_powerplant: {
    title: 'minor repair or alteration of an engine or propeller',
    mayPerform:
      'a mechanic with the rating, or a person supervised by one; nothing major on a propeller, no instruments',
    mayApprove: 'a mechanic with a powerplant rating',
    record: 'entry by 14 CFR 43.9',
    paragraphs: '14 CFR 65.81, 65.87',
    entitlements: [powerplantMechanic, station('powerplant')],
  },
  hundred_hour_airframe: {
    title: '100-hour inspection of the airframe',
    mayPerform: 'a mechanic with an airframe rating',
    mayApprove: 'a mechanic with an airframe rating',
    record: 'entry by 14 CFR 43.11',
    paragraphs: '14 CFR 65.85',
    entitlements: [airframeMechanic, station('airframe')],
  },
  hundred_hour_powerplant: {
    title: '100-hour inspection of the engine and propeller',
    mayPerform: 'a mechanic with a powerplant rating',
    mayApprove: 'a mechanic with a powerplant rating',
    record: 'entry by 14 CFR 43.11',
    paragraphs: '14 CFR 65.87',
    entitlements: [powerplantMechanic, station('powerplant')],
  },
  annual_inspection: {
    title: 'annual inspection',
    mayPerform: 'the holder of an inspection authorization, a repair station, the manufacturer',
    mayApprove: 'the holder of an inspection authorization, a repair station or the manufacturer',
    record: 'entry by 14 CFR 43.11 that says annual',
    paragraphs: '14 CFR 65.95(a)(2), 91.409(a), 43.7',
    entitlements: [inspectionAuthorization, station('airframe')],
  },
  progressive_inspection: {
    title: 'progressive inspection',
    mayPerform:
      'people supervised by the holder of an inspection authorization, an airframe repair station, the manufacturer',
    mayApprove:
      'the holder of an inspection authorization, an airframe repair station or the manufacturer',
    record: 'entry worded by 14 CFR 43.11(a)(6)',
    paragraphs: '14 CFR 91.409(d), 65.95',
    entitlements: [inspectionAuthorization, station('airframe')],
  },
  major_work_to_approved_data: {
    title: 'major repair or alteration to approved data',
    mayPerform: 'a mechanic (not on a propeller), a repair station',
    mayApprove:
      'the holder of an inspection authorization, a repair station, the manufacturer or the authority',
    record: 'Form 337 and an entry by 14 CFR 43.9',
    paragraphs: '14 CFR 65.95(a)(1), 43.9(d), part 43 Appendix B',
    entitlements: [inspectionAuthorization, station('any')],
  },
  major_repair_by_repair_station: {
    title: 'major repair by a repair station to an acceptable manual',
    mayPerform: 'a repair station',
    mayApprove: 'a repair station',
    record:
      'signed work order copied to the owner and a maintenance release in place of Form 337, kept 2 years',
    paragraphs: '14 CFR part 43 Appendix B(b)',
    entitlements: [station('any')],
  },
  instrument_or_major_propeller_work: {
    title: 'repair or alteration of an instrument, or major work on a propeller',
    mayPerform: 'a repair station with the rating, the manufacturer; not a mechanic',
    mayApprove: 'a repair station with the rating',
    record: 'entry by 14 CFR 43.9 and the release',
    paragraphs: '14 CFR 65.81(a)',
    entitlements: [station('instrument'), station('propeller')],
  },
  altimeter_or_static_test: {
    title: 'altimeter and static system test for instrument flight',
    mayPerform:
      'the manufacturer, a repair station with the rating, or for the static system alone a mechanic with an airframe rating',
    mayApprove:
      'the manufacturer, a repair station with the rating, or for the static system alone a mechanic with an airframe rating',
    record: 'entry by 14 CFR 43.9',
    paragraphs: '14 CFR 91.411(b)',
    entitlements: [airframeMechanic, station('instrument')],
  },
  transponder_test: {
    title: 'transponder test',
    mayPerform:
      'a repair station with the rating, the holder of a continuous airworthiness programme, the manufacturer; not a mechanic alone',
    mayApprove:
      'a repair station with the rating, the holder of a continuous airworthiness programme or the manufacturer',
    record: 'entry by 14 CFR 43.9',
    paragraphs: '14 CFR 91.413(c)',
    entitlements: [station('radio')],
  },
  work_under_supervision: {
    title: 'work by a person without a certificate',
    mayPerform:
      'anyone whose supervisor watches as far as needed and is at hand in person; no inspection that part 91 or 125 requires, none after a major repair or alteration',
    mayApprove: 'the supervisor, if entitled to the work itself',
    record: 'entry by 14 CFR 43.9 with the name of the person who did it, 43.9(a)(3)',
    paragraphs: '14 CFR 43.3(d)',
    entitlements: [],
  },
  repair_station_work: {
    title: 'work of a repair station',
    mayPerform: "the repair station's people",
    mayApprove:
      'its inspector on the roster, certificated under part 65 at a station in the United States',
    record: 'maintenance release, copied to the owner, kept 2 years',
    paragraphs: '14 CFR 145.155, 145.213, 145.219',
    entitlements: [station('any')],
  },
  database_update_from_flight_deck: {
    title: 'update of a navigation database from the flight deck without tools',
    mayPerform: 'a pilot: it is not maintenance',
    mayApprove: 'nobody needs to: it is not maintenance',
    record: 'none required',
    paragraphs: '14 CFR 43.3(k)',
    entitlements: [...pilots, { by: 'person', holds: ['sport_pilot'], as: 'pilot' }],
  },
} as const satisfies Record<string, KindOfWork>;

export type WorkKind = keyof typeof kindsOfWork;
