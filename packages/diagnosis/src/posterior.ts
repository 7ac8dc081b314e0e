import type { Knowledge } from './knowledge.ts';
import { likelihood } from './likelihood.ts';
import { checkSeen, type Sighting, symptomOf } from './sighting.ts';
import type { AircraftKind, Cause, Symptom } from './symptom.ts';
import { priorOf } from './tables.ts';

/** Whether something that is said of one kind of aircraft concerns this one; of an unknown one, everything may. */
export const isOn = (aircraft: AircraftKind | undefined, only: AircraftKind | undefined): boolean =>
  aircraft === undefined || only === undefined || only === aircraft;

/** The causes that the aircraft can have. */
export const causesOf = (symptom: Symptom, aircraft: AircraftKind | undefined): readonly Cause[] =>
  symptom.causes.filter(({ only }) => isOn(aircraft, only));

/** Probabilities of causes, in the order of `causes`. */
export interface Posterior {
  readonly symptom: Symptom;
  readonly causes: readonly Cause[];
  readonly probabilities: readonly number[];
}

/**
 * Bayes' rule: P(cause | seen) ∝ P(cause) · P(seen | cause).
 *
 * @throws RangeError for a symptom, question or answer that there is not
 */
export function posterior(
  knowledge: Knowledge,
  { symptom: id, seen, aircraft }: Sighting,
): Posterior {
  const symptom = symptomOf(knowledge, id);
  checkSeen(symptom, seen);
  const causes = causesOf(symptom, aircraft);
  const prior = priorOf(knowledge, symptom, causes);
  const joint = causes.map(
    (cause, index) => (prior[index] ?? 0) * likelihood(knowledge, symptom, cause, seen),
  );
  const all = joint.reduce((sum, one) => sum + one, 0);
  return { symptom, causes, probabilities: joint.map((one) => one / all) };
}
