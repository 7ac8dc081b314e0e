import type { TimeInService } from '../hours.ts';
import type { CivilDay } from './civil-days.ts';

export const dueRules = [
  'hundred_hour',
  'annual',
  'calendar_months',
  'recurring',
  'life_limit',
  'once',
] as const;
export type DueRule = (typeof dueRules)[number];

/** Where an aircraft stands, or stood. */
export interface Standing {
  readonly date: CivilDay;
  /** Hundredths of an hour. */
  readonly tis: TimeInService;
  readonly cycles?: number | undefined;
}

/** How often: what is given of these, at least one. */
export interface Interval {
  /** Hundredths of an hour. */
  readonly hours?: TimeInService | undefined;
  /** To the same day of the month. */
  readonly months?: number | undefined;
  /** To the end of the month. */
  readonly calendarMonths?: number | undefined;
  readonly days?: number | undefined;
  readonly cycles?: number | undefined;
}

/** The last compliance; for a life limit, when the part was fitted with no time on it. */
export interface Compliance {
  readonly date?: CivilDay | undefined;
  readonly tis?: TimeInService | undefined;
  readonly cycles?: number | undefined;
  /** When that one had been due. */
  readonly dueAtTis?: TimeInService | undefined;
}

/** Not later than: what is given of these, at least one. */
export interface Limit {
  readonly hours?: TimeInService | undefined;
  readonly cycles?: number | undefined;
  readonly date?: CivilDay | undefined;
}

/** Something that falls due. */
export interface DueItem {
  readonly id: string;
  readonly rule: DueRule;
  readonly every?: Interval | undefined;
  /** Which of several intervals or limits counts. */
  readonly whichever: 'first' | 'last';
  readonly last?: Compliance | undefined;
  /** Every hour past due was flown to reach where the inspection can be done. */
  readonly enRoute: boolean;
  readonly limit?: Limit | undefined;
}

/** How early something counts as due soon. */
export interface Soon {
  /** Hundredths of an hour. */
  readonly hours: TimeInService;
  readonly days: number;
}

export type DueState = 'ok' | 'due_soon' | 'due' | 'within_allowance' | 'overdue';

/** When an item is due, and how the aircraft stands against it. */
export interface Due {
  readonly id: string;
  readonly due: {
    readonly date?: CivilDay | undefined;
    readonly tis?: TimeInService | undefined;
    readonly cycles?: number | undefined;
  };
  /** How far the rule lets it be exceeded on the way to the inspection. */
  readonly limitTis?: TimeInService | undefined;
  /** `due`: nothing remains, and nothing is exceeded. */
  readonly state: DueState;
  /** Below 0 past due. Hours in hundredths. */
  readonly remaining: {
    readonly hours?: number | undefined;
    readonly days?: number | undefined;
    readonly cycles?: number | undefined;
  };
  /** One sentence with the rule's paragraph. */
  readonly because: string;
}
