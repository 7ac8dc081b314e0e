import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { personForChange, refuseWhoLeft, shopForChange } from './for-change.ts';
import { type DayHours, givenHours, sayTime } from './given-shop.ts';
import { weekdays } from './presence.ts';

export interface WeekHours extends DayHours {
  weekday: number;
}

/** Puts a week in place of the one before: somebody's, or, without a person, the hours in which the shop is open. */
export async function setWeek(
  context: Context,
  input: { personId: string | null; expectedVersion: number; hours: readonly WeekHours[] },
): Promise<void> {
  const { shopId } = await allow(context, 'manager');
  const { personId, expectedVersion } = input;
  const hours = givenWeek(input.hours);
  await context.write(async (tx) => {
    // load
    await countAChange(tx, personId, expectedVersion);
    // save
    await tx.weeklyHours.deleteMany({ where: { personId } });
    await tx.weeklyHours.createMany({
      data: hours.map((each) => ({ ...each, shopId, personId })),
    });
  });
}

async function countAChange(
  tx: Tx,
  personId: string | null,
  expectedVersion: number,
): Promise<void> {
  // The database counts by itself; the statement only has to touch the row.
  const data = { version: { increment: 1 } };
  if (personId === null) {
    const { id } = await shopForChange(tx, expectedVersion);
    await tx.shop.update({ where: { id }, data, select: { id: true } });
    return;
  }
  const person = await personForChange(tx, personId, expectedVersion);
  refuseWhoLeft(person);
  await tx.person.update({ where: { id: person.id }, data, select: { id: true } });
}

function givenWeek(given: readonly WeekHours[]): WeekHours[] {
  if (given.length > 28)
    throw new Refused(
      'BAD_INPUT',
      `A week of ${given.length} pieces was given: needed are at most 28, four a day.`,
      'hours',
    );
  const hours = given.map(({ weekday, ...each }) => {
    if (weekday < 1 || weekday > 7)
      throw new Refused(
        'BAD_INPUT',
        `weekday is ${weekday}: needed is 1 for Monday to 7 for Sunday.`,
        'hours',
      );
    return { weekday, ...givenHours(each, 'hours') };
  });
  const sorted = hours.toSorted((a, b) => a.weekday - b.weekday || a.fromMinute - b.fromMinute);
  sorted.forEach((one, index) => {
    const next = sorted[index + 1];
    if (next && next.weekday === one.weekday && next.fromMinute < one.toMinute)
      throw new Refused(
        'BAD_INPUT',
        `On ${weekdays[one.weekday - 1]} ${sayTime(one.fromMinute)} to ${sayTime(one.toMinute)} and ${sayTime(next.fromMinute)} to ${sayTime(next.toMinute)} overlap.`,
        'hours',
      );
  });
  return sorted;
}
