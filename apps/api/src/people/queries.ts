import type { Tx } from '@fairlead/database';
import { minutesOf, type Piece, presentOn, type Week } from './presence.ts';

export { type Piece, presentOn, type Week } from './presence.ts';

export interface DayPresence {
  /** Midnight UTC of the civil day. */
  day: Date;
  /** Whoever works on aircraft, with when they are here; nobody who is not. */
  present: { personId: string; name: string; pieces: Piece[]; minutes: number }[];
  away: { personId: string; name: string; reason: string }[];
  /** The pieces of everybody, had nobody been away and the shop not been closed. */
  usual: Piece[][];
  /** Why the shop is closed, where it says so. */
  closed: string | null;
}

const DAY = 86_400_000;

/** Who of the mechanics and inspectors is here on each of so many days, from a civil day on. Two statements a question. */
export async function presenceAhead(read: Tx, from: Date, days: number): Promise<DayPresence[]> {
  const to = new Date(from.getTime() + (days - 1) * DAY);
  const ahead = { where: { firstDay: { lte: to }, lastDay: { gte: from } } };
  const shop = await read.shop.findFirstOrThrow({
    select: {
      weeklyHours: { where: { personId: null } },
      dayExceptions: { where: { personId: null, ...ahead.where } },
    },
  });
  const people = await read.person.findMany({
    where: { active: true, roles: { hasSome: ['mechanic', 'inspector'] } },
    orderBy: { name: 'asc' },
    select: { id: true, name: true, weeklyHours: true, exceptions: ahead },
  });
  const ofShop = { week: shop.weeklyHours, exceptions: shop.dayExceptions };
  const always = { week: shop.weeklyHours, exceptions: [] };
  return Array.from({ length: days }, (_, index) => {
    const day = new Date(from.getTime() + index * DAY);
    const covers = (each: { firstDay: Date; lastDay: Date }) =>
      each.firstDay <= day && day <= each.lastDay;
    const present = people.flatMap(({ id, name, weeklyHours: week, exceptions }) => {
      const pieces = presentOn(day, { week, exceptions }, ofShop);
      return pieces.length > 0 ? [{ personId: id, name, pieces, minutes: minutesOf(pieces) }] : [];
    });
    return {
      day,
      present,
      away: people.flatMap(({ id, name, exceptions }) => {
        const away = exceptions.find((each) => each.fromMinute === null && covers(each));
        return away ? [{ personId: id, name, reason: away.reason }] : [];
      }),
      usual: people.flatMap(({ weeklyHours: week }) => {
        const pieces = presentOn(day, { week, exceptions: [] }, always);
        return pieces.length > 0 ? [pieces] : [];
      }),
      closed:
        shop.dayExceptions.find((each) => each.fromMinute === null && covers(each))?.reason ?? null,
    };
  });
}

/** When some people are in, as their weeks and exceptions say. Three statements for however many. */
export async function weeksOf(read: Tx, personIds: readonly string[]) {
  const { timeZone } = await read.shop.findFirstOrThrow({ select: { timeZone: true } });
  const whose = { OR: [{ personId: null }, { personId: { in: [...new Set(personIds)] } }] };
  const weekly = await read.weeklyHours.findMany({ where: whose });
  const exceptions = await read.dayException.findMany({ where: whose });
  const weekOf = (personId: string | null): Week => ({
    week: weekly.filter((each) => each.personId === personId),
    exceptions: exceptions.filter((each) => each.personId === personId),
  });
  const shop = weekOf(null);
  return (personId: string) => ({ person: weekOf(personId), shop, timeZone });
}
