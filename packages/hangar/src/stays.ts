/** An aircraft on a stand for a time: planned, or as it was. */
export interface Stay {
  readonly id: string;
  readonly registration: string;
  readonly standId: string;
  readonly standName: string;
  readonly from: Date;
  /** When it leaves; null while nobody has said. */
  readonly to: Date | null;
}

/** Two stays that cannot both be. */
export interface Conflict {
  readonly kind: 'one_stand_two_aircraft' | 'one_aircraft_two_stays';
  readonly stayIds: readonly [string, string];
  readonly from: Date;
  readonly to: Date | null;
  readonly sentence: string;
}

/**
 * Conflicts among stays: two aircraft on one stand at the same time, or one aircraft in two stays at
 * once. A stay counts from its beginning up to, not including, its end, so one aircraft may follow
 * another at the same minute.
 *
 * @param timeZone in which the sentences name the times; UTC when left out.
 * @returns the conflicts by when they begin; none when all is well.
 * @throws RangeError for a stay that ends before or when it begins.
 * @example overlaps([]) // → []
 */
export function overlaps(
  stays: readonly Stay[],
  { timeZone = 'UTC' }: { readonly timeZone?: string } = {},
): Conflict[] {
  stays.forEach(refuseBackwards);
  const write = timeWriter(timeZone);
  const sorted = [...stays].sort((a, b) => startOf(a) - startOf(b) || (a.id < b.id ? -1 : 1));
  const conflicts: Conflict[] = [];
  let present: Stay[] = [];
  for (const stay of sorted) {
    present = present.filter((earlier) => endOf(earlier) > startOf(stay));
    for (const earlier of present) {
      const conflict = conflictOf(earlier, stay, write);
      if (conflict !== undefined) {
        conflicts.push(conflict);
      }
    }
    present.push(stay);
  }
  return conflicts;
}

function conflictOf(
  earlier: Stay,
  later: Stay,
  write: (instant: Date) => string,
): Conflict | undefined {
  const sameAircraft = earlier.registration === later.registration;
  if (!sameAircraft && earlier.standId !== later.standId) {
    return undefined;
  }
  const end = Math.min(endOf(earlier), endOf(later));
  const to = Number.isFinite(end) ? new Date(end) : null;
  const until = to === null ? 'on' : `to ${write(to)}`;
  const who = sameAircraft
    ? `${later.registration} is planned on stand ${earlier.standName} and again on stand ${later.standName}`
    : `${earlier.registration} and ${later.registration} are both planned on stand ${later.standName}`;
  return {
    kind: sameAircraft ? 'one_aircraft_two_stays' : 'one_stand_two_aircraft',
    stayIds: [earlier.id, later.id],
    from: later.from,
    to,
    sentence: `${who} from ${write(later.from)} ${until}`,
  };
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/**
 * Writes instants as day, month in words, year and 24-hour time in a zone, whatever the machine's locale.
 *
 * @throws RangeError for a zone that is none.
 * @example timeWriter('UTC')(new Date(0)) // → '1 Jan 1970, 00:00'
 */
export function timeWriter(timeZone: string): (instant: Date) => string {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  return (instant) => {
    const parts = new Map(format.formatToParts(instant).map(({ type, value }) => [type, value]));
    const part = (type: Intl.DateTimeFormatPartTypes) => parts.get(type) ?? '';
    const month = months[Number(part('month')) - 1] ?? '';
    return `${Number(part('day'))} ${month} ${part('year')}, ${part('hour')}:${part('minute')}`;
  };
}

export function startOf(stay: Stay): number {
  return stay.from.getTime();
}

export function endOf(stay: Stay): number {
  return stay.to === null ? Number.POSITIVE_INFINITY : stay.to.getTime();
}

export function refuseBackwards(stay: Stay): void {
  if (!(startOf(stay) < endOf(stay))) {
    throw new RangeError(
      `Cannot plan ${stay.registration} on stand ${stay.standName} from ${stay.from.getTime()} to ${stay.to?.getTime() ?? 'open'} (ms): give an end after the beginning`,
    );
  }
}
