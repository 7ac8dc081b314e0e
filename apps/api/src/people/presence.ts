/** Monday first, as ISO 8601 counts them. */
export const weekdays = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;

export interface Piece {
  fromMinute: number;
  toMinute: number;
}
export interface Week {
  week: readonly (Piece & { weekday: number })[];
  exceptions: readonly {
    firstDay: Date;
    lastDay: Date;
    fromMinute: number | null;
    toMinute: number | null;
  }[];
}

/** @param day midnight UTC of a civil day */
const weekdayOf = (day: Date) => day.getUTCDay() || 7;

/** The hours of a day as a week and its exceptions say; null where neither says anything of any day. */
function saidFor(day: Date, { week, exceptions }: Week): Piece[] | null {
  const exception = exceptions.find(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay);
  if (exception) {
    const { fromMinute, toMinute } = exception;
    return fromMinute === null || toMinute === null ? [] : [{ fromMinute, toMinute }];
  }
  if (week.length === 0) return null;
  const weekday = weekdayOf(day);
  return week
    .filter((piece) => piece.weekday === weekday)
    .map(({ fromMinute, toMinute }) => ({ fromMinute, toMinute }))
    .sort((a, b) => a.fromMinute - b.fromMinute);
}

/**
 * When somebody is in the shop on a day, for promise dates: nobody on a day on which it is closed; else what their own
 * exception says, else their own week, else the hours in which the shop is open. Somebody's own hours are not cut to the
 * shop's: a mechanic may begin before the door opens (common practice, no source).
 *
 * @param day midnight UTC of a civil day
 * @returns pieces in minutes from midnight in the shop's time zone, in order, none overlapping
 */
export function presentOn(day: Date, person: Week, shop: Week): Piece[] {
  const open = saidFor(day, shop);
  if (open && open.length === 0) return [];
  return saidFor(day, person) ?? open ?? [];
}

/** Minutes of all pieces together. */
export const minutesOf = (pieces: readonly Piece[]): number =>
  pieces.reduce((sum, { fromMinute, toMinute }) => sum + toMinute - fromMinute, 0);
