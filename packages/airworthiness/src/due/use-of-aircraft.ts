import type { CivilDay } from './civil-days.ts';

export interface UseReading {
  readonly date: CivilDay;
  /** Hundredths of an hour; or a count of cycles, landings or starts. */
  readonly tis: number;
}

/** How much an aircraft flies, in hundredths of an hour a day; or what it counts a day. */
export interface UseOfAircraft {
  readonly usual: number;
  /** Of its quietest and its busiest month or more between two readings. */
  readonly least: number;
  readonly most: number;
}

const LOOK_BACK = 730;
const STRETCH = 28;
const STRETCHES = 3;

/**
 * How much an aircraft flies, by its own readings of the last two years: in all, and in the quietest and the busiest
 * stretch of at least four weeks between two readings, which is what its seasons look like (common practice, no source).
 *
 * @param readings in any order
 * @returns null where fewer than three such stretches are known: nothing is foretold then
 * @example useOfAircraft([{ date: 0, tis: parseHours('100') }, { date: 30, tis: parseHours('106') }, { date: 60, tis: parseHours('109') }, { date: 90, tis: parseHours('118') }], 90) // → { usual: 20, least: 10, most: 30 }
 */
export function useOfAircraft(
  readings: readonly UseReading[],
  today: CivilDay,
): UseOfAircraft | null {
  const known = readings
    .filter(({ date }) => date <= today && date >= today - LOOK_BACK)
    .toSorted((one, other) => one.date - other.date || one.tis - other.tis);
  const first = known[0];
  if (!first) return null;
  const rates: number[] = [];
  let from = first;
  for (const reading of known) {
    const days = reading.date - from.date;
    if (days < STRETCH || reading.tis < from.tis) continue;
    rates.push((reading.tis - from.tis) / days);
    from = reading;
  }
  if (rates.length < STRETCHES) return null;
  return {
    usual: (from.tis - first.tis) / (from.date - first.date),
    least: Math.min(...rates),
    most: Math.max(...rates),
  };
}

/** The day by which so many hours are flown: as usual, and if it flies as in its busiest and quietest stretch. */
export interface ProjectedDay {
  readonly usual: CivilDay | null;
  readonly earliest: CivilDay | null;
  /** Null: in its quietest stretch it did not fly at all. */
  readonly latest: CivilDay | null;
}

/**
 * When hours that remain will have been flown.
 *
 * @param hours hundredths, or a count; below 0 is today
 * @example projectedDay({ usual: 20, least: 10, most: 40 }, parseHours('20'), 1000) // → { usual: 1100, earliest: 1050, latest: 1200 }
 */
export function projectedDay(
  { usual, least, most }: UseOfAircraft,
  hours: number,
  today: CivilDay,
): ProjectedDay {
  const after = (rate: number) =>
    hours <= 0 ? today : rate <= 0 ? null : today + Math.floor(hours / rate);
  return { usual: after(usual), earliest: after(most), latest: after(least) };
}

/**
 * Of what is projected by hours and by counts, the day on which the first of them, or the last, will be reached.
 *
 * @returns null where nothing is projected; of the last, null also for a day that one of them does not have
 * @example projectedTogether([{ usual: 10, earliest: 5, latest: 20 }, { usual: 12, earliest: 3, latest: null }], 'first') // → { usual: 10, earliest: 3, latest: 20 }
 */
export function projectedTogether(
  days: readonly ProjectedDay[],
  whichever: 'first' | 'last',
): ProjectedDay | null {
  if (days.length === 0) return null;
  const pick = (name: keyof ProjectedDay) => {
    const known = days.flatMap((each) => each[name] ?? []);
    if (known.length === 0 || (whichever === 'last' && known.length < days.length)) return null;
    return whichever === 'first' ? Math.min(...known) : Math.max(...known);
  };
  return { usual: pick('usual'), earliest: pick('earliest'), latest: pick('latest') };
}
