import { endOf, refuseBackwards, type Stay, startOf } from './stays.ts';

export interface Occupancy {
  /** Hours in which a stand has an aircraft, all stands added. */
  readonly takenHours: number;
  /** Stands × hours of the time looked at. */
  readonly thereHours: number;
  /** Taken ÷ there, 0 to 1; 0 where there is no stand. */
  readonly share: number;
}

const HOUR = 3_600_000;

/**
 * How full the stands are: stand-hours taken ÷ stand-hours there, from a time to a later one.
 *
 * Two stays at once on one stand take it once, an open stay takes it to the end of the time looked at,
 * and stays on stands not given do not count.
 *
 * @throws RangeError when `to` is not after `from`, or for a stay that ends before it begins.
 * @example occupancy([], [{ id: 's1' }], new Date(0), new Date(3600000)) // → { takenHours: 0, thereHours: 1, share: 0 }
 */
export function occupancy(
  stays: readonly Stay[],
  stands: readonly { readonly id: string }[],
  from: Date,
  to: Date,
): Occupancy {
  const begin = from.getTime();
  const end = to.getTime();
  if (!(begin < end)) {
    throw new RangeError(
      `Cannot tell occupancy from ${begin} to ${end} (ms): give an end after the beginning`,
    );
  }
  stays.forEach(refuseBackwards);
  const ids = new Set(stands.map(({ id }) => id));
  const takenMs = [...ids].reduce((sum, id) => {
    const here = stays.filter(({ standId }) => standId === id);
    return sum + takenOn(here, begin, end);
  }, 0);
  const thereMs = ids.size * (end - begin);
  return {
    takenHours: takenMs / HOUR,
    thereHours: thereMs / HOUR,
    share: thereMs === 0 ? 0 : takenMs / thereMs,
  };
}

/** Length of the union of stays on one stand, within the time looked at. */
function takenOn(stays: readonly Stay[], begin: number, end: number): number {
  const sorted = [...stays].sort((a, b) => startOf(a) - startOf(b));
  let taken = 0;
  let reached = begin;
  for (const stay of sorted) {
    const starts = Math.max(startOf(stay), reached);
    const ends = Math.min(endOf(stay), end);
    if (ends > starts) {
      taken += ends - starts;
      reached = ends;
    }
  }
  return taken;
}
