import { civilDay } from '../civil-day.ts';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { personHeld, refuseWhoLeft } from './for-change.ts';
import { type DayHours, givenHours } from './given-shop.ts';

export interface ExceptionInput {
  personId: string | null;
  firstDay: Date;
  lastDay: Date;
  /** Null: closed, or away. */
  hours: DayHours | null;
  reason: string;
}

const DAY = 86_400_000;

/** Days that are not as the week says: the shop closed, somebody away, or hours of their own. */
export async function addException(context: Context, input: ExceptionInput): Promise<string> {
  const { shopId } = await allow(context, 'manager');
  const { personId, firstDay, lastDay } = input;
  const reason = givenText(input.reason, 'reason', { least: 1, most: 200 });
  const hours = input.hours ? givenHours(input.hours, 'fromMinute') : null;
  const days = (lastDay.getTime() - firstDay.getTime()) / DAY + 1;
  if (days < 1 || days > 366)
    throw new Refused(
      'BAD_INPUT',
      `Days from ${sayDay(firstDay)} to ${sayDay(lastDay)} were given: needed is a last day on or after the first, and at most 366 days.`,
      'lastDay',
    );
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'exceptions of', personId ?? 'shop');
    const person = personId ? await personHeld(tx, personId) : null;
    const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
    const today = civilDay(context.now(), timeZone);
    const other = await tx.dayException.findFirst({
      where: { personId, firstDay: { lte: lastDay }, lastDay: { gte: firstDay } },
    });
    // decide
    if (person) refuseWhoLeft(person);
    if (lastDay < today)
      throw new Refused(
        'BAD_INPUT',
        `Days until ${sayDay(lastDay)} were given: they are over, today is ${sayDay(today)}.`,
        'lastDay',
      );
    if (other)
      throw new Refused(
        'CONFLICT',
        `${person ? person.name : 'The shop'} has "${other.reason}" from ${sayDay(other.firstDay)} to ${sayDay(other.lastDay)} already: take that back first, or choose other days.`,
        'firstDay',
      );
    // save
    const { id } = await tx.dayException.create({
      data: { shopId, personId, firstDay, lastDay, reason, ...hours },
      select: { id: true },
    });
    return id;
  });
}
