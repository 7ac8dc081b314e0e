/** A standing caution: shown where it matters, and in every paper that could be mistaken for authority. */
export interface Caution {
  readonly id: string;
  readonly text: string;
  /** Where it belongs. */
  readonly on: readonly CautionPlace[];
}

export type CautionPlace =
  | 'task'
  | 'entry'
  | 'discrepancy_list'
  | 'due_list'
  | 'diagnosis'
  | 'torque'
  | 'owner_page'
  | 'quote'
  | 'signing'
  | 'inoperative';

/** The cautions that stand whatever the work is. */
export const standingCautions: readonly Caution[] = [
  {
    id: 'current_data_governs',
    text: "The manufacturer's current maintenance manual, its limitations section and the directives in force govern. Where anything here differs from them, they are right.",
    on: ['task', 'entry', 'diagnosis', 'torque', 'due_list', 'inoperative'],
  },
  {
    id: 'person_decides',
    text: 'This program does not find an aircraft airworthy and does not approve it for return to service. A person who holds the certificate and rating for the work does.',
    on: ['entry', 'discrepancy_list', 'signing', 'owner_page', 'inoperative'],
  },
  {
    id: 'owner_responsible',
    text: 'Due dates and hours shown here are an aid. The owner or operator stays responsible for having the aircraft inspected and its directives complied with in time.',
    on: ['due_list', 'owner_page', 'quote'],
  },
  {
    id: 'only_where_maker_gives_none',
    text: 'Suggested causes and general torque values apply only where the manufacturer gives none.',
    on: ['diagnosis', 'torque'],
  },
  {
    id: 'signature_acceptance',
    text: 'A typed or drawn signature is not accepted everywhere. Ask the local office of the authority before you rely on one.',
    on: ['entry', 'signing'],
  },
  {
    id: 'united_states_rules',
    text: 'The paragraphs cited are those of the United States. Elsewhere other rules apply: follow the local ones.',
    on: ['entry', 'discrepancy_list', 'due_list', 'signing', 'inoperative'],
  },
  {
    id: 'inoperative_is_a_finding_of_a_person',
    text: 'That equipment may stay inoperative is found by a person who may say so, for the flights to be made. The pilot in command decides before each flight whether that holds for it.',
    on: ['inoperative'],
  },
  {
    id: 'declined_unairworthy',
    text: 'An item listed as unairworthy stays so until it is corrected. Whether the aircraft may be flown anywhere before that is for the authority to say, not for this page.',
    on: ['owner_page', 'discrepancy_list'],
  },
];

/** The cautions that belong on one kind of page or paper, in their standing order. */
export function cautionsOn(place: CautionPlace): readonly Caution[] {
  return standingCautions.filter(({ on }) => on.includes(place));
}

/** Hazards of the item at hand, shown before the clock starts. */
export const hazards = {
  fuel_vapour:
    'Fuel vapour: no flame, no spark, no mobile phone on the work; air the place, earth the aircraft, have an extinguisher within reach.',
  ignition_and_battery:
    'Ignition off, key out, battery disconnected before a hand goes near the propeller, the starter or live wiring. Treat every magneto as live.',
  hot_parts:
    'Hot parts: exhaust, cylinders and oil stay hot long after shut-down. Let them cool or wear gloves.',
  rotor_or_propeller_arc:
    'Rotor or propeller arc: keep it clear of people, ladders and tools, and walk in only where the pilot can see you.',
  jacking:
    "Jacking: only at the manufacturer's points, on level ground, out of the wind, tail held down where the manual says so. Nobody underneath until it stands safe.",
  pressure:
    'Stored pressure: struts, tyres, accumulators and hydraulic lines. Release it before loosening anything.',
  locked_out_controls:
    'Controls locked out: tag them where a pilot will see it, and take lock and tag off only when everybody is clear.',
} as const;

export type Hazard = keyof typeof hazards;
