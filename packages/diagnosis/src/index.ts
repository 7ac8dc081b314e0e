export { cautions } from './cautions.ts';
export { answersInOrder, nextQuestion } from './choices.ts';
export { type Hazard, hazards } from './hazards.ts';
export { tables } from './knowledge/index.ts';
export {
  CAUSES_WEIGH,
  HALF_LIFE_YEARS,
  type Knowledge,
  type Learnt,
  ROW_WEIGHS,
} from './knowledge.ts';
export { type ClosedCase, learn, weightAfter } from './learn.ts';
export { likelihood } from './likelihood.ts';
export { type NextCheck, nextChecks, type Outcome } from './next-check.ts';
export { type Posterior, posterior } from './posterior.ts';
export { type Reason, reasonsOf, strength } from './reasons.ts';
export { checkSeen, type Seen, type Sighting, stillKnown, symptomOf } from './sighting.ts';
export { type Source, type SourceId, sources, sourceWords } from './sources.ts';
export { type StainClass, type StainSize, stainSize, stainSizes } from './stain-size.ts';
export {
  causeById,
  type RankedCause,
  STANDS_OUT,
  type Suggestion,
  suggest,
} from './suggest.ts';
export type { AircraftKind, Answer, Cause, CauseKind, Question, Symptom } from './symptom.ts';
export { workBefore } from './work-before.ts';
