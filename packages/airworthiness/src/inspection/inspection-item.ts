/** The groups in which 14 CFR part 43 appendix D and 43.15 list what an annual or a 100-hour inspection looks at. */
export const inspectionGroups = {
  preparation: 'Preparation',
  fuselage: 'Fuselage and hull',
  cabin: 'Cabin and cockpit',
  engine: 'Engine and nacelle',
  gear: 'Landing gear',
  wing: 'Wing and centre section',
  empennage: 'Empennage',
  propeller: 'Propeller',
  radio: 'Radio',
  miscellaneous: 'Whatever else is installed',
  rotor: 'Rotors and their drive',
  run_up: 'Run-up before approval',
} as const;

export type InspectionGroup = keyof typeof inspectionGroups;
export type InspectedAircraft = 'helicopter' | 'airplane';

/** One line of the rule, as a piece of work with its own list. */
export interface InspectionItem {
  /** Short readable name; the key of the task that is made of it. */
  readonly key: string;
  /** Which line of the rule it answers: `appendix D(d)(3)`, `43.15(b)(2)`. */
  readonly paragraph: string;
  readonly group: InspectionGroup;
  readonly title: string;
  /** FAA JASC code, four digits. */
  readonly jasc: string;
  /** What is looked at, in our words after the rule's. */
  readonly checklist: readonly string[];
  /** Left out: on both. */
  readonly only?: InspectedAircraft;
  /** Wants a second, independent pair of eyes (common practice, no source). */
  readonly critical?: true;
}
