import { csvLines, type RefusedCell } from './csv-lines.ts';
import { type CivilDay, readDay, writeDay } from './due/civil-days.ts';
import type { Counter } from './due/due-item.ts';
import type { TimeInService } from './hours.ts';

/** A flight as a list names it. */
export interface ListedFlight {
  readonly line: number;
  readonly date: CivilDay;
  /** Hundredths of an hour. */
  readonly time: TimeInService;
  readonly landings: number;
  readonly starts: number;
  /** As the maker of the part that counts them says; one a flight where the list does not tell (common practice, no source). */
  readonly cycles: number;
}

export interface FlightList {
  /** In the order of their days; none where anything was refused. */
  readonly flights: readonly ListedFlight[];
  readonly refused: readonly RefusedCell[];
}

const MOST_HOURS = 24_00;

/** "1.25", "1,25" or "1:15", as hundredths of an hour; minutes to the nearest hundredth. */
function timeOf(text: string): number | null {
  const [, hours, minutes] = /^(\d{1,2}):([0-5]\d)$/.exec(text) ?? [];
  if (hours !== undefined && minutes !== undefined)
    return Number(hours) * 100 + Math.round((Number(minutes) * 100) / 60);
  const [, whole, decimals = ''] = /^(\d{1,2})(?:[.,](\d{1,2}))?$/.exec(text) ?? [];
  return whole === undefined ? null : Number(whole) * 100 + Number(decimals.padEnd(2, '0'));
}

/**
 * Reads a list of flights: date, flight_time, landings, starts of the engine and cycles; the last three may be left out, and
 * are one each then. All of it or nothing: each refused cell is said with its line.
 *
 * @param after flights have to lie after this day, whose hours are counted already; null: no meter was read yet
 * @param today none lies after today
 * @example readFlightList('date,flight_time\n2026-03-12,1:15\n', { after: null, today: readDay('2026-03-14') }).flights[0]?.time // → 125
 */
export function readFlightList(
  text: string,
  { after, today }: { after: CivilDay | null; today: CivilDay },
): FlightList {
  const { lines, refused: broken } = csvLines(
    text,
    ['date', 'flight_time'],
    ['landings', 'starts', 'cycles'],
  );
  const refused: RefusedCell[] = [...broken];
  const flights = lines.map(({ line, cells }): ListedFlight => {
    const refuse = (column: keyof typeof cells, problem: string, needed: string) => {
      refused.push({ line, column, value: cells[column], problem, needed });
      return 0;
    };
    const count = (column: Counter, blank: number) =>
      cells[column] === ''
        ? blank
        : /^\d{1,3}$/.test(cells[column])
          ? Number(cells[column])
          : refuse(column, 'is no number of them', 'a whole number from 0 to 999');
    const day = dayOf(cells.date);
    const date = day ?? refuse('date', 'is no day that exists', 'a day such as 2026-03-14');
    if (day !== null && day > today)
      refuse('date', 'lies in the future', `a day up to ${writeDay(today)}`);
    if (day !== null && after !== null && day <= after)
      refuse('date', 'is counted already by the last reading', `a day after ${writeDay(after)}`);
    const flown = timeOf(cells.flight_time);
    const time =
      flown === null || flown === 0 || flown > MOST_HOURS
        ? refuse('flight_time', 'is no time of a flight', 'hours such as 1.25 or 1:15, at most 24')
        : flown;
    return {
      ...{ line, date, time: time as TimeInService },
      ...{ landings: count('landings', 1), starts: count('starts', 1) },
      cycles: count('cycles', 1),
    };
  });
  if (refused.length > 0)
    return { flights: [], refused: refused.toSorted((one, other) => one.line - other.line) };
  return { flights: flights.toSorted((one, other) => one.date - other.date), refused: [] };
}

function dayOf(text: string): CivilDay | null {
  try {
    return readDay(text);
  } catch {
    return null;
  }
}
