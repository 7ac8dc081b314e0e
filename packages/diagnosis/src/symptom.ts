import type { Hazard } from './hazards.ts';
import type { SourceId } from './sources.ts';

/** Of which aircraft a cause or an answer can be; on both where nothing is said. */
export type AircraftKind = 'helicopter' | 'airplane';

/** Shares of answers in per cent. What they leave is spread over the other answers as is usual. */
export type Shares = Readonly<Record<string, number>>;

/** One thing that can be answered to a question. */
export interface Answer {
  readonly id: string;
  /** On the button. */
  readonly words: string;
  /** The same as a sentence without its full stop, for reasons. */
  readonly says: string;
  readonly only?: AircraftKind;
}

/** Something that is looked at, or a check that somebody makes. Both are evidence of the same kind. */
export interface Question {
  readonly id: string;
  readonly asks: string;
  /** A look costs nothing but an answer; a check has its work described. */
  readonly kind: 'look' | 'check';
  /** How it is done, for a check. */
  readonly how?: string;
  /** Hands-on minutes, waiting left out; this program's judgement. */
  readonly minutes: number;
  readonly hazards?: readonly Hazard[];
  /** Of which aircraft it is asked; of both where nothing is said. */
  readonly only?: AircraftKind;
  readonly answers: readonly Answer[];
  /** The question on whose answer this one depends, given the cause: what was changed last says much of the oil's colour. */
  readonly given?: string;
  /** How often each answer comes where nothing in particular speaks; sums to 100. Judgement. */
  readonly usual: Shares;
  /** The same, for an answer of the question it depends on. */
  readonly usualGiven?: Readonly<Record<string, Shares>>;
}

/** What a cause makes of a question: [question, shares of its answers, source, answer of the question it depends on]. */
export type Row = readonly [question: string, shares: Shares, source: SourceId, given?: string];

/** `normal`: as it is built or as it was left; no failure. `something_else`: none of those listed. */
export type CauseKind = 'fault' | 'normal' | 'something_else';

export interface Cause {
  readonly id: string;
  readonly name: string;
  readonly kind: CauseKind;
  /** Of how many cases of the symptom it is the cause, against the others' numbers. Judgement. */
  readonly weight: number;
  /** Why it looks like that. */
  readonly why: string;
  readonly source: SourceId;
  /** What is done about it. */
  readonly remedy: string;
  /** The work that it leads to; none where nothing is wrong. */
  readonly work: { readonly title: string; readonly jasc: string } | null;
  readonly only?: AircraftKind;
  readonly rows: readonly Row[];
}

/** A way in: what somebody notices first, with the causes it may have. */
export interface Symptom {
  readonly id: string;
  readonly name: string;
  /** For whom hesitates. */
  readonly hint: string;
  readonly questions: readonly Question[];
  /** The last is always something else. */
  readonly causes: readonly Cause[];
}
