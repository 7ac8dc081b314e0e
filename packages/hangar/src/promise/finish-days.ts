/** Work that may begin on a day, as draws of its hands-on hours. */
export interface Released {
  /** Index of the day on which it may begin. */
  readonly from: number;
  /** One draw of its hours each; draw by draw with the other work. */
  readonly draws: ArrayLike<number>;
}

/** Less than a hundredth of a second: what sums of minutes may be off by. */
const CRUMB = 1e-4;

/**
 * On which day the work is done, draw by draw. The hands do whatever work may be done already and never stand idle while
 * there is some, so it ends where the last of these ends, over all days s on which some of it is let go:
 *
 *     the first day by which the minutes free from s on cover all work that may not begin before s
 *
 * @param free minutes of work that each day has
 * @returns how many draws are done on each day; the last place counts those that are not done on any
 */
export function finishDays(free: ArrayLike<number>, work: readonly Released[]): Uint32Array {
  const days = free.length;
  const upTo = new Float64Array(days + 1);
  for (let day = 0; day < days; day += 1) upTo[day + 1] = upTo[day]! + free[day]!;
  const done = new Uint32Array(days + 1);
  const later = [...work].sort((one, other) => other.from - one.from);
  const last = later[0]?.from ?? 0;
  const draws = work[0]?.draws.length ?? 1;
  for (let draw = 0; draw < draws; draw += 1) {
    let finish = last;
    let minutes = 0;
    for (const { from, draws: hours } of later) {
      minutes += hours[draw]! * 60;
      // Nothing to do is done as soon as it may be.
      if (minutes > CRUMB)
        finish = Math.max(
          finish,
          from < days ? firstReaching(upTo, upTo[from]! + minutes, from) : days,
        );
    }
    done[Math.min(finish, days)]! += 1;
  }
  return done;
}

/** The first day at whose end so many minutes are had; the number of days where none is. */
function firstReaching(upTo: Float64Array, minutes: number, from: number): number {
  let low = from;
  let high = upTo.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (upTo[middle + 1]! >= minutes - CRUMB) high = middle;
    else low = middle + 1;
  }
  return low;
}

/**
 * The first day by which such a share of the draws is done; null where that day is not among those counted.
 *
 * @param share above 0, at most 1
 */
export function dayOfShare(done: Uint32Array, share: number): number | null {
  const all = done.reduce((sum, count) => sum + count, 0);
  let sofar = 0;
  for (let day = 0; day < done.length - 1; day += 1) {
    sofar += done[day]!;
    if (sofar >= share * all - 1e-9) return day;
  }
  return null;
}
