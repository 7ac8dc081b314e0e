import { Refused } from '../errors.ts';

/** As many photos as one finding holds. */
export const MOST_PHOTOS = 12;

const DAY_MS = 24 * 3600 * 1000;
export const EARLIEST = new Date('2000-01-01T00:00:00Z');
const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** A time that a device gave: its clock may be wrong, but not by years. */
export function deviceTime(at: Date, now: Date, field: string): Date {
  if (at < EARLIEST || at.getTime() > now.getTime() + DAY_MS)
    throw new Refused(
      'BAD_INPUT',
      `${field} is ${at.toISOString()}: needed is a time from 2000 on and no more than 24 hours ahead. Set the clock of the device.`,
      field,
    );
  return at;
}

/** The id that a device made for what it sends, so that the same thing sent twice counts once. */
export function clientId(given: string, field = 'clientEventId'): string {
  if (!uuid.test(given))
    throw new Refused(
      'BAD_INPUT',
      `${field} is "${given.slice(0, 60)}": needed is a UUID made by the device.`,
      field,
    );
  return given.toLowerCase();
}

/** Text as given, between two lengths; spaces at its ends do not count. */
export function text(
  given: string | null | undefined,
  field: string,
  { least = 0, most }: { least?: number; most: number },
): string {
  const value = (given ?? '').trim();
  if (value.length < least || value.length > most)
    throw new Refused(
      'BAD_INPUT',
      `${field} has ${value.length} characters: needed are ${least} to ${most}.`,
      field,
    );
  return value;
}

/** A list of at most so many. */
export function atMost<Item>(
  given: readonly Item[] | null | undefined,
  field: string,
  most: number,
): readonly Item[] {
  const list = given ?? [];
  if (list.length > most)
    throw new Refused('BAD_INPUT', `${field} has ${list.length} entries: at most ${most}.`, field);
  return list;
}
