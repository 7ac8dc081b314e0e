import { type CivilDay, daysBetween } from './civil-day.ts';

/** From a minute of a civil day to a later one, 0 to 1440. */
export interface Piece {
  readonly fromMinute: number;
  readonly toMinute: number;
}

/** One civil day of the shop: who is in, each person with their pieces. */
export interface ShopDay {
  readonly day: CivilDay;
  readonly people: readonly (readonly Piece[])[];
  /** The same, had nobody been away and the shop not been closed; left out: as `people`. */
  readonly usual?: readonly (readonly Piece[])[];
}

/** Work that was promised to other aircraft and takes the same people, from a day on. */
export interface OtherWork {
  readonly from: CivilDay;
  /** Hands-on hours, 0 or more. */
  readonly hours: number;
}

const MIDNIGHT = 1440;

/**
 * Minutes of work that one aircraft can be given in a day: at every minute as many hands as are in, but no more than
 * can work on it at once.
 *
 * @param hands people at once on one aircraft, a whole number of 1 or more
 * @param after only what lies after this minute counts
 * @throws RangeError for a piece that ends before it begins or leaves its day
 * @example handMinutes([[{ fromMinute: 480, toMinute: 720 }], [{ fromMinute: 600, toMinute: 720 }]], { hands: 1 }) // → 240
 */
export function handMinutes(
  people: ShopDay['people'],
  { hands, after = 0 }: { readonly hands: number; readonly after?: number },
): number {
  const edges: [minute: number, change: number][] = [];
  for (const { fromMinute, toMinute } of people.flat()) {
    if (!(fromMinute >= 0 && fromMinute < toMinute && toMinute <= MIDNIGHT))
      throw new RangeError(
        `Nobody is in from minute ${fromMinute} to ${toMinute}: give an end after the beginning, 0 to ${MIDNIGHT}`,
      );
    if (toMinute > after) edges.push([Math.max(fromMinute, after), 1], [toMinute, -1]);
  }
  edges.sort(([one], [other]) => one - other);
  let sum = 0;
  let here = 0;
  let since = 0;
  for (const [minute, change] of edges) {
    sum += (minute - since) * Math.min(here, hands);
    here += change;
    since = minute;
  }
  return sum;
}

export interface Sharing {
  /** From when on: a day, and the minute of it that has come. */
  readonly from: { readonly day: CivilDay; readonly minute: number };
  /** Most people at once on one aircraft. */
  readonly hands: number;
  readonly others: readonly OtherWork[];
  /** As if nobody had been away and the shop not been closed. */
  readonly asUsual?: boolean;
}

/**
 * Minutes of work that are free for one aircraft, day by day: what its hands could do, and where that is more than the
 * people in can give to all, an equal part for each aircraft that still has work. An aircraft that needs less than its
 * part leaves the rest to the others, and one whose hours are done no longer counts.
 *
 * @returns minutes, one a day given
 */
export function freeMinutes(
  days: readonly ShopDay[],
  { from, hands, others, asUsual = false }: Sharing,
): Float64Array {
  const left = others.map((other) => ({
    begins: Math.max(0, daysBetween(from.day, other.from)),
    minutes: other.hours * 60,
  }));
  const free = new Float64Array(days.length);
  for (const [index, { people, usual }] of days.entries()) {
    const after = index === 0 ? from.minute : 0;
    const here = asUsual ? (usual ?? people) : people;
    const own = handMinutes(here, { hands, after });
    let pool = handMinutes(here, { hands: Number.POSITIVE_INFINITY, after });
    // Smallest claims first, so that what they leave goes to the larger ones.
    const claims = left
      .filter(({ begins, minutes }) => begins <= index && minutes > 0)
      .map((other) => ({ other, claim: Math.min(own, other.minutes) }))
      .sort((one, next) => one.claim - next.claim);
    let sharing = claims.length + 1;
    for (const { other, claim } of claims) {
      const given = Math.min(claim, pool / sharing);
      other.minutes -= given;
      pool -= given;
      sharing -= 1;
    }
    free[index] = Math.min(own, pool);
  }
  return free;
}
