import type { Tx } from '@fairlead/database';
import { civilDay } from '../civil-day.ts';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';

/** A list counts from today or later, but for the first of its kind: what was reckoned until now stays as it was. */
export async function refuseEarlier(
  tx: Tx,
  now: Date,
  { validFrom, first, what }: { validFrom: Date; first: boolean; what: string },
): Promise<void> {
  const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
  const today = civilDay(now, timeZone);
  if (!first && validFrom < today)
    throw new Refused(
      'AGAINST_RULE',
      `${what} were given from ${sayDay(validFrom)}: needed is today, ${sayDay(today)}, or later, since what was reckoned until now stays as it was.`,
      'validFrom',
    );
}
