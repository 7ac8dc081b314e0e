import { Refused } from './errors.ts';

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** A text between two lengths; blanks at its ends do not count. */
export function givenText(
  given: string | null | undefined,
  field: string,
  { least = 0, most }: { least?: number; most: number },
): string {
  const text = (given ?? '').trim();
  if (text.length < least || text.length > most)
    throw new Refused(
      'BAD_INPUT',
      `${field} has ${text.length} characters: needed are ${least} to ${most}.`,
      field,
    );
  return text;
}

/** A decimal number, as text, above 0 and at most so large, with at most so many decimals. */
export function givenQuantity(
  given: string,
  field: string,
  {
    most,
    decimals,
    zero = false,
    called = field,
  }: { most: number; decimals: number; zero?: boolean; called?: string },
): string {
  const [, fraction = ''] = given.split('.');
  const value = Number(given);
  if (
    !/^\d+(\.\d+)?$/.test(given) ||
    value > most ||
    (zero ? value < 0 : value <= 0) ||
    fraction.length > decimals
  )
    throw new Refused(
      'BAD_INPUT',
      `${called} is ${given.slice(0, 40)}: needed is ${zero ? '0' : 'more than 0'} to ${most} with at most ${decimals} decimals.`,
      field,
    );
  return given;
}

/** A key that a page makes for what it sends once; null where it made none. */
export function givenKey(given: string | null | undefined, field = 'clientEventId'): string | null {
  if (given === null || given === undefined) return null;
  if (!uuid.test(given))
    throw new Refused(
      'BAD_INPUT',
      `${field} is "${given.slice(0, 60)}": needed is a UUID that the page makes.`,
      field,
    );
  return given.toLowerCase();
}

/** A civil day, for sentences: 2031-05-04. */
export const sayDay = (day: Date) => day.toISOString().slice(0, 10);
/** An instant, for sentences: 2031-05-04 08:30 UTC. */
export const sayMinute = (instant: Date) =>
  `${instant.toISOString().slice(0, 16).replace('T', ' ')} UTC`;
