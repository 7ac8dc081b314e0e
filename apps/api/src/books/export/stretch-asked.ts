import { Refused } from '../../errors.ts';
import type { Stretch } from './read-booked.ts';

const MOST_DAYS = 3660;

function dayAsked(given: unknown, field: string): Date {
  const date =
    typeof given === 'string' && /^\d{4}-\d\d-\d\d$/.test(given)
      ? new Date(`${given}T00:00:00Z`)
      : new Date(Number.NaN);
  if (Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== given)
    throw new Refused(
      'BAD_INPUT',
      `${field} is "${String(given ?? '').slice(0, 40)}": needed is a day, such as 2031-05-04.`,
      field,
    );
  return date;
}

/** `?from=2031-01-01&until=2031-12-31`, both needed, both included. */
export function stretchAsked(query: Record<string, unknown>): Omit<Stretch, 'timeZone'> {
  const [from, until] = [dayAsked(query['from'], 'from'), dayAsked(query['until'], 'until')];
  const days = (until.getTime() - from.getTime()) / 86_400_000;
  if (days < 0 || days > MOST_DAYS)
    throw new Refused(
      'BAD_INPUT',
      `From ${query['from'] as string} to ${query['until'] as string} was refused: needed are two days in order, at most ten years apart.`,
      'until',
    );
  return { from, until };
}
