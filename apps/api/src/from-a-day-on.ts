import type { Tx } from '@fairlead/database';
import { civilDay } from './civil-day.ts';
import { Refused } from './errors.ts';
import { sayDay } from './given.ts';

/** A new rate or list, from a day on. */
export interface FromDay {
  validFrom: Date;
  /** The one of the same day that this one puts right, as whoever gives it saw it; null: there was none. */
  replacesId: string | null;
}

/**
 * A rate or list counts from today or later, but for the first of its kind: what was reckoned until now stays as it was. A
 * second for one day names the one it replaces, so that of two people who give one at once the later is told of the other's.
 *
 * @param known all of its kind, the newest first
 * @param words what was given, with its verb ("Mark-up bands were"); and what there is already ("a rate … already: 95")
 */
export async function refuseDay<Row extends { id: string; validFrom: Date }>(
  tx: Tx,
  now: Date,
  { validFrom, replacesId }: FromDay,
  known: readonly Row[],
  words: { given: string; already: (same: Row) => string },
): Promise<void> {
  const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
  const today = civilDay(now, timeZone);
  if (known.length > 0 && validFrom < today)
    throw new Refused(
      'AGAINST_RULE',
      `${words.given} given from ${sayDay(validFrom)}: needed is today, ${sayDay(today)}, or later, since what was reckoned until now stays as it was.`,
      'validFrom',
    );
  const same = known.find((row) => row.validFrom.getTime() === validFrom.getTime());
  if (same && same.id !== replacesId)
    throw new Refused(
      'CONFLICT',
      `${words.already(same)} To put it right, say that yours replaces it.`,
      'replacesId',
    );
}
