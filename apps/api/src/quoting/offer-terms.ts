import { Refused } from '../errors.ts';

/** Days that an offer holds where nobody says otherwise. */
export const HOLDS_DAYS = 30;
const MOST_DAYS = 366;
const DAY = 86_400_000;

const iso = (day: Date) => day.toISOString().slice(0, 10);

/** The last day of an offer: the one asked for, or 30 days on. */
export function expiryOf(asked: Date | null | undefined, today: Date): Date {
  const expiresOn = asked ?? new Date(today.getTime() + HOLDS_DAYS * DAY);
  const latest = new Date(today.getTime() + MOST_DAYS * DAY);
  if (expiresOn < today || expiresOn > latest)
    throw new Refused(
      'BAD_INPUT',
      `An offer until ${iso(expiresOn)} was refused: needed is a day from ${iso(today)} to ${iso(latest)}.`,
      'expiresOn',
    );
  return expiresOn;
}

/** A text that may be empty, without blanks around it. */
export function textUpTo(given: string | null | undefined, most: number, field: string): string {
  const text = (given ?? '').trim();
  if (text.length > most)
    throw new Refused(
      'BAD_INPUT',
      `The ${field} has ${text.length} characters: at most ${most} are kept.`,
      field,
    );
  return text;
}

/** A text that must say something. */
export function textNeeded(given: string | null | undefined, most: number, field: string): string {
  const text = textUpTo(given, most, field);
  if (text === '')
    throw new Refused(
      'BAD_INPUT',
      `The ${field} is empty: needed is a text of at most ${most} characters.`,
      field,
    );
  return text;
}
