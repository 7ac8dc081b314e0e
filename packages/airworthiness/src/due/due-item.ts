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

/** What is counted besides hours; what a cycle is, the maker of the part says. */
export const counters = ['cycles', 'landings', 'starts'] as const;
export type Counter = (typeof counters)[number];
export type Counts = { readonly [Each in Counter]?: number | undefined };

/** Where an aircraft stands, or stood. */
export interface Standing extends Counts {
  readonly date: CivilDay;
  /** Hundredths of an hour. */
  readonly tis: TimeInService;
}

/** How often: what is given of these, at least one. */
export interface Interval extends Counts {
  /** Hundredths of an hour. */
  readonly hours?: TimeInService | undefined;
  /** To the same day of the month. */
  readonly months?: number | undefined;
  /** To the end of the month. */
  readonly calendarMonths?: number | undefined;
  readonly days?: number | undefined;
}

/** The last compliance; for a life limit, when the part was fitted with no time on it. */
export interface Compliance extends Counts {
  readonly date?: CivilDay | undefined;
  readonly tis?: TimeInService | undefined;
  /** When that one had been due. */
  readonly dueAtTis?: TimeInService | undefined;
}

/** Not later than: what is given of these, at least one. */
export interface Limit extends Counts {
  readonly hours?: TimeInService | undefined;
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
  /** Cycles, landings or starts, of each; left out: none. */
  readonly counts?: number;
}

export type DueState = 'ok' | 'due_soon' | 'due' | 'within_allowance' | 'overdue';

/** When an item is due, and how the aircraft stands against it. */
export interface Due {
  readonly id: string;
  readonly due: Counts & {
    readonly date?: CivilDay | undefined;
    readonly tis?: TimeInService | undefined;
  };
  /** How far the rule lets it be exceeded on the way to the inspection. */
  readonly limitTis?: TimeInService | undefined;
  /** `due`: nothing remains, and nothing is exceeded. */
  readonly state: DueState;
  /** Below 0 past due. Hours in hundredths. */
  readonly remaining: Counts & {
    readonly hours?: number | undefined;
    readonly days?: number | undefined;
  };
  /** One sentence with the rule's paragraph. */
  readonly because: string;
}
