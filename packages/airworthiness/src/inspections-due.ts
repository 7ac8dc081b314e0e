import type { CivilDate } from './civil-date.ts';
import { endOfMonthAfter, readDay, writeDay } from './due/civil-days.ts';
import { formatHours, hundredths, type TimeInService } from './hours.ts';

const INTERVAL = 100_00;
const EN_ROUTE_ALLOWANCE = 10_00;

export interface HundredHourDue {
  readonly due: TimeInService;
  /** Only for reaching a place where the inspection can be done. */
  readonly enRouteLimit: TimeInService;
  /** The inspection was done past even the en-route limit: flag it, no allowance covers it. */
  readonly doneTooLate: boolean;
  readonly because: string;
}

/**
 * When the next 100-hour inspection is due, by 14 CFR 91.409(b).
 *
 * Formula: the earlier of when it was done and when it had been due, plus 100 h: done early it runs
 * from the inspection ("within the preceding 100 hours"), done late the hours over count against the
 * next 100. It may be exceeded by not more than 10 h, only while en route to where it can be done.
 * Past that the rule gives nothing to count from; here it still counts from when it had been due, the
 * earlier of the two readings.
 *
 * @param doneAt time in service at the last 100-hour or annual inspection.
 * @param previousDue when that one had been due, if it was the 100-hour's turn.
 * @example hundredHourDue({ doneAt: parseHours('1234.5') }).due // → parseHours('1334.5')
 */
export function hundredHourDue({
  doneAt,
  previousDue,
}: {
  readonly doneAt: TimeInService;
  readonly previousDue?: TimeInService;
}): HundredHourDue {
  const over = previousDue === undefined ? 0 : Math.max(0, doneAt - previousDue);
  const due = hundredths(doneAt - over + INTERVAL);
  const doneTooLate = over > EN_ROUTE_ALLOWANCE;
  const late = `it was done ${formatHours(hundredths(over))} h after it was due`;
  const reason =
    over === 0
      ? `100 h from the inspection at ${formatHours(doneAt)} h`
      : doneTooLate
        ? `${late}, more than the 10 h that may be flown to reach it; the next runs from when it was due`
        : `${late}, and those hours count against the next 100`;
  return {
    due,
    enRouteLimit: hundredths(due + EN_ROUTE_ALLOWANCE),
    doneTooLate,
    because: `Due at ${formatHours(due)} h: ${reason} (14 CFR 91.409(b))`,
  };
}

export interface HundredHourStanding {
  readonly state: 'ok' | 'within_allowance' | 'overdue';
  readonly because: string;
}

/**
 * How an aircraft stands against its 100-hour inspection, by 14 CFR 91.409(b). Exactly at the due
 * time is still within the preceding 100 hours; exactly 10 h past is "not more than 10".
 *
 * @param enRoute whether every hour past the due time was flown to reach where it can be done.
 * @example hundredHourStanding({ due: parseHours('1334.5'), at: parseHours('1336.0'), enRoute: false }).state // → 'overdue'
 */
export function hundredHourStanding({
  due,
  at,
  enRoute,
}: {
  readonly due: TimeInService;
  readonly at: TimeInService;
  readonly enRoute: boolean;
}): HundredHourStanding {
  if (at <= due) {
    const left = formatHours(hundredths(due - at));
    return { state: 'ok', because: `${left} h left of the 100 (14 CFR 91.409(b))` };
  }
  const over = hundredths(at - due);
  if (over > EN_ROUTE_ALLOWANCE) {
    return {
      state: 'overdue',
      because: `${formatHours(over)} h past due, more than the 10 h that may be flown to reach the inspection: no allowance applies (14 CFR 91.409(b))`,
    };
  }
  return enRoute
    ? {
        state: 'within_allowance',
        because: `${formatHours(over)} h past due, flown to reach where the inspection can be done; they count against the next 100 h (14 CFR 91.409(b))`,
      }
    : {
        state: 'overdue',
        because: `${formatHours(over)} h past due; the 10 h allowance is only for reaching where the inspection can be done (14 CFR 91.409(b))`,
      };
}

export interface CalendarDue {
  /** The last day that still counts. */
  readonly goodThrough: CivilDate;
  readonly overdueFrom: CivilDate;
  readonly because: string;
}

/**
 * When something due every so many calendar months lapses: at the end of the month, that many months
 * after the month it was done in. Counted from the month it was done, so that nothing drifts.
 * Source: that calendar months end on the month's last day is how the rules are read by others
 * (seen second-hand).
 *
 * @param months a whole number from 1 to 1200.
 * @throws RangeError for a day that does not exist or months out of range.
 * @example calendarMonthsDue('2024-11-05', 24).goodThrough // → '2026-11-30'
 */
export function calendarMonthsDue(
  doneOn: CivilDate,
  months: number,
  paragraph = 'calendar months',
): CalendarDue {
  if (!Number.isInteger(months) || months < 1 || months > 1200) {
    throw new RangeError(`Cannot count ${months} calendar months: give a whole number, 1 to 1200`);
  }
  const last = endOfMonthAfter(readDay(doneOn, 'date done'), months);
  const goodThrough = writeDay(last);
  return {
    goodThrough,
    overdueFrom: writeDay(last + 1),
    because: `Done ${doneOn}, good through ${goodThrough}: the end of the month, ${months} calendar months on (${paragraph})`,
  };
}

/**
 * When an annual inspection lapses, by 14 CFR 91.409(a): 12 calendar months.
 *
 * @param approvedOn the day the annual was approved for return to service. A 100-hour inspection is
 *   no annual unless a person entitled to annuals did it and entered it as one.
 * @example annualDue('2025-03-14').goodThrough // → '2026-03-31'
 */
export function annualDue(approvedOn: CivilDate): CalendarDue {
  return calendarMonthsDue(approvedOn, 12, '14 CFR 91.409(a)');
}
