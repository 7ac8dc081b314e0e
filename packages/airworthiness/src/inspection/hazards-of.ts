import { type Hazard, hazards } from '../cautions.ts';
import type { InspectionGroup, InspectionItem } from './inspection-item.ts';

/** What can hurt somebody at the work of a group (common practice, no source). */
const inGroup: Record<InspectionGroup, readonly Hazard[]> = {
  preparation: ['ignition_and_battery', 'hot_parts'],
  fuselage: ['locked_out_controls'],
  cabin: ['ignition_and_battery', 'locked_out_controls'],
  engine: ['ignition_and_battery', 'hot_parts'],
  gear: ['jacking', 'pressure'],
  wing: ['locked_out_controls', 'fuel_vapour'],
  empennage: ['locked_out_controls'],
  propeller: ['ignition_and_battery', 'rotor_or_propeller_arc'],
  radio: ['ignition_and_battery'],
  miscellaneous: ['ignition_and_battery'],
  rotor: ['ignition_and_battery', 'rotor_or_propeller_arc'],
  run_up: ['rotor_or_propeller_arc', 'hot_parts'],
};
const besides: Readonly<Record<string, readonly Hazard[]>> = {
  'appd-d1-leaks': ['fuel_vapour'],
  'appd-d3-internal-engine': ['rotor_or_propeller_arc', 'pressure'],
  'appd-d7-lines-hoses': ['fuel_vapour'],
};

/** The cautions of an item, as its mechanic reads them before the clock starts. */
export const cautionsOfItem = ({ key, group }: InspectionItem): string[] =>
  [...inGroup[group], ...(besides[key] ?? [])].map((hazard) => hazards[hazard]);
