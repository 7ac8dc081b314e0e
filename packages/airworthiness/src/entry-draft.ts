import type { CivilDate } from './civil-date.ts';
import type { EntryParts } from './entry-parts.ts';
import type { TimeInService } from './hours.ts';

/** A record entry while it is being prepared: anything may still be missing. */
export interface EntryDraft {
  readonly completedOn?: CivilDate | undefined;
  readonly totalTimeInService?: TimeInService | undefined;
  /** Present when anything was maintained, repaired or altered: 14 CFR 43.9 applies. */
  readonly maintenance?: MaintenanceDone | undefined;
  /** Present when an inspection was done: 14 CFR 43.11 applies. */
  readonly inspection?: InspectionDone | undefined;
  /** The person about to sign, as the signature will show them. */
  readonly signature?: EntrySignature | undefined;
  /** Why the aircraft is to be flown before it carries anybody but its crew: 14 CFR 91.407(b). */
  readonly flightCheck?: string | undefined;
  /** What was left inoperative, each in a sentence: 14 CFR 91.213(d). */
  readonly inoperative?: readonly string[] | undefined;
  readonly items: readonly EntryItem[];
  readonly findings: readonly EntryFinding[];
}

export interface MaintenanceDone {
  /** What was done, a line for each piece of work. */
  readonly description: readonly string[];
  /** Data that the work followed, with revision: a manual's chapter, a directive. */
  readonly references: readonly string[];
  /** Names of those who did it, the signer included if so. */
  readonly performedBy: readonly string[];
  /** Parts that went on and came off in the course of it. */
  readonly parts?: EntryParts | undefined;
}

export interface EntrySignature {
  readonly name: string;
  readonly certificateNumber: string;
  /** Kind of certificate or capacity: "mechanic, airframe rating". */
  readonly certificateKind: string;
}

export type InspectionOutcome = 'airworthy' | 'not_airworthy_list_given';

export interface InspectionDone {
  readonly type: 'annual' | 'hundred_hour' | 'progressive';
  /** Briefly, how far it went: "whole aircraft, by the shop's checklist revision 4". */
  readonly extent: string;
  readonly outcome?: InspectionOutcome | undefined;
  /** The list of discrepancies and unairworthy items, when one was given. */
  readonly list?: GivenList | undefined;
  /** Equipment left inoperative as 91.213(d)(2) permits. */
  readonly inoperative?: readonly InoperativeItem[];
  /** For a progressive inspection alone. */
  readonly progressive?: { readonly routineOf: string; readonly detailedOf: string } | undefined;
}

export interface GivenList {
  readonly dated?: CivilDate | undefined;
  readonly givenTo: string;
  readonly signed: boolean;
  /** The titles of what is on it. */
  readonly items: readonly string[];
}

export interface InoperativeItem {
  readonly title: string;
  readonly placarded: boolean;
}

export interface EntryItem {
  readonly title: string;
  readonly state: 'open' | 'in_work' | 'waiting' | 'done' | 'inspected' | 'put_off';
  readonly performedBy: readonly string[];
  readonly initialledBy?: string | undefined;
  /** Flight controls, engine, rotors and the like: a second person looks. */
  readonly critical: boolean;
  readonly secondInspectionBy?: string | undefined;
}

export interface EntryFinding {
  readonly title: string;
  readonly class: 'unairworthy' | 'discrepancy' | 'observation';
  readonly state:
    | 'noted'
    | 'assessed'
    | 'offered'
    | 'agreed'
    | 'declined'
    | 'put_off'
    | 'corrected';
}

/** What an inspection is called in an entry. */
export const inspectionNames = {
  annual: 'annual',
  hundred_hour: '100-hour',
  progressive: 'progressive',
} as const;
