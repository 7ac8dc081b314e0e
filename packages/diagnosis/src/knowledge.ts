import type { Symptom } from './symptom.ts';

/** What a shop's own closed findings add up to, newer ones weighing more. Plain data. */
export interface Learnt {
  /** Weight by `symptom cause`. */
  readonly causes: Readonly<Record<string, number>>;
  /** Weight by `symptom cause question given answer`; given is empty where the row does not depend on it. */
  readonly answers: Readonly<Record<string, number>>;
  /** Closed findings by symptom: how many, and what they weigh together. */
  readonly cases: Readonly<Record<string, { readonly count: number; readonly weight: number }>>;
}

/** The tables, and what was learnt on top of them. */
export interface Knowledge {
  readonly symptoms: readonly Symptom[];
  readonly learnt: Learnt;
}

export const nothingLearnt: Learnt = { causes: {}, answers: {}, cases: {} };

/** The tables of a symptom's causes weigh as much together as this many closed findings of the shop from today. */
export const CAUSES_WEIGH = 20;
/** One row of a table weighs as much as this many closed findings of that cause from today. */
export const ROW_WEIGHS = 12;
/** After so many years a closed finding weighs half. */
export const HALF_LIFE_YEARS = 6;

export const causeKey = (symptom: string, cause: string): string => `${symptom} ${cause}`;
export const answerKey = (
  symptom: string,
  cause: string,
  question: string,
  given: string,
  answer: string,
): string => `${symptom} ${cause} ${question} ${given} ${answer}`;
