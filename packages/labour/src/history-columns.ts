import type { AccessConditions } from './access-conditions.ts';
import type { Hours } from './hours.ts';

/** The columns of a history file, in the order in which they are written. */
export const HISTORY_COLUMNS = [
  'completed_on',
  'task',
  'jasc',
  'standard_hours',
  'model',
  'registration',
  'mechanic',
  'hours',
  'censored',
  'clearance_mm',
  'sight',
  'posture',
  'reach',
  'swing_deg',
  'held',
  'locked_fasteners',
] as const;

export type HistoryColumn = (typeof HISTORY_COLUMNS)[number];

/** Written by `writeRefused` and passed over on reading, so that a corrected file can go straight back. */
export const REASON_COLUMN = 'refused_because';

/** A mechanic's share of an item; the shares of an item sum to 1. */
export type MechanicShare = { readonly name: string; readonly share: number };

/** One completed item of a history file. What is left out was not recorded. */
export type HistoryRow = {
  /** Physical line where the row starts, counted from 1. */
  readonly line: number;
  /** ISO 8601 calendar date. */
  readonly completedOn: string;
  readonly task: string;
  readonly jasc?: string;
  readonly standardHours?: Hours;
  readonly model?: string;
  readonly registration?: string;
  readonly mechanics: readonly MechanicShare[];
  readonly hours: Hours;
  readonly censored: boolean;
  readonly found: AccessConditions;
};
