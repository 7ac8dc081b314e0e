import { isCurrency } from '@fairlead/money';
import { Refused } from '../errors.ts';

/** An IANA time zone, as the runtime knows it. An offset such as +01:00 is none: it does not know summer. */
export function givenTimeZone(given: string): string {
  const timeZone = given.trim();
  if (/^[A-Za-z][A-Za-z0-9_+/-]{0,60}$/.test(timeZone))
    try {
      new Intl.DateTimeFormat('en', { timeZone });
      return timeZone;
    } catch {
      // Refused below, with a sentence.
    }
  throw new Refused(
    'BAD_INPUT',
    `timeZone is "${timeZone.slice(0, 60)}": needed is a name of the IANA time zone database, such as UTC or Europe/Lisbon.`,
    'timeZone',
  );
}

/** A whole number of millimetres that a shop may keep around an aircraft. */
export function givenClearance(given: number): number {
  if (given < 0 || given > 20_000)
    throw new Refused(
      'BAD_INPUT',
      `clearanceMm is ${given}: needed is 0 to 20,000 mm around a parked aircraft.`,
      'clearanceMm',
    );
  return given;
}

export function givenCurrency(given: string): string {
  if (!isCurrency(given))
    throw new Refused(
      'BAD_INPUT',
      `currency is "${given.slice(0, 20)}": needed is a code of ISO 4217 that amounts can be kept in, such as USD.`,
      'currency',
    );
  return given;
}

/** Hours of a day, in minutes from midnight. */
export interface DayHours {
  fromMinute: number;
  toMinute: number;
}

/** 8:30, for sentences. */
export const sayTime = (minute: number) =>
  `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;

export function givenHours({ fromMinute, toMinute }: DayHours, field: string): DayHours {
  if (fromMinute < 0 || toMinute > 1440 || fromMinute >= toMinute)
    throw new Refused(
      'BAD_INPUT',
      `${field} goes from minute ${fromMinute} to minute ${toMinute}: needed is a beginning before the end, both between 0 and 1440, in minutes from midnight.`,
      field,
    );
  return { fromMinute, toMinute };
}
