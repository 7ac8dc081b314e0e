/** Whose week: the shop's, or somebody's who works on aircraft. */
export interface Whose {
  personId: string | null;
  version: number;
  name: string;
}

/** A piece of a day in minutes from midnight. */
export interface Piece {
  fromMinute: number;
  toMinute: number;
}

export const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
export const weekdaysInFull = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;

/**
 * A time of day.
 *
 * @example timeText(450) // → '7:30'
 * @example timeText(1440) // → '24:00'
 */
export function timeText(minute: number): string {
  return `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;
}

/**
 * Hours of a day as a person writes them; a whole hour without its minutes.
 *
 * @example hoursOfDayText([{ fromMinute: 450, toMinute: 720 }, { fromMinute: 780, toMinute: 1020 }]) // → '7:30–12, 13–17'
 */
export function hoursOfDayText(pieces: readonly Piece[]): string {
  const short = (minute: number) => timeText(minute).replace(/:00$/, '');
  return pieces.map((piece) => `${short(piece.fromMinute)}–${short(piece.toMinute)}`).join(', ');
}

/**
 * Reads hours as a person writes them: "7:30-12, 13-17". Nothing written is a day off.
 *
 * @returns null where it cannot be read, or where a piece ends before it begins or after midnight
 * @example readHoursOfDay('7.30 - 12') // → [{ fromMinute: 450, toMinute: 720 }]
 * @example readHoursOfDay('17-8') // → null
 */
export function readHoursOfDay(typed: string): Piece[] | null {
  if (typed.trim() === '') return [];
  const pieces: Piece[] = [];
  for (const part of typed.split(/[,;]/)) {
    const read = /^\s*(\d{1,2})(?:[:.](\d\d))?\s*(?:-|–|to)\s*(\d{1,2})(?:[:.](\d\d))?\s*$/.exec(
      part,
    );
    if (!read) return null;
    const [fromMinutes, toMinutes] = [Number(read[2] ?? 0), Number(read[4] ?? 0)];
    const fromMinute = Number(read[1]) * 60 + fromMinutes;
    const toMinute = Number(read[3]) * 60 + toMinutes;
    if (fromMinutes > 59 || toMinutes > 59 || fromMinute >= toMinute || toMinute > 1440)
      return null;
    pieces.push({ fromMinute, toMinute });
  }
  return pieces;
}

/** The hours that a ruled strip has to reach over, whole, at least from 7 to 17. */
export function stripReach(pieces: readonly Piece[]): { from: number; to: number } {
  const from = Math.min(420, ...pieces.map(({ fromMinute }) => fromMinute));
  const to = Math.max(1020, ...pieces.map(({ toMinute }) => toMinute));
  return { from: Math.floor(from / 60) * 60, to: Math.ceil(to / 60) * 60 };
}
