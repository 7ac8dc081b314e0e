import { civilDay } from './civil-day.ts';
import type { Context } from './context.ts';

const known = new WeakMap<Context, Promise<Date>>();

/** The civil day that the shop has now, as midnight UTC; asked once a request. */
export function shopToday(context: Context): Promise<Date> {
  const day =
    known.get(context) ??
    context.read.shop
      .findFirstOrThrow({ select: { timeZone: true } })
      .then(({ timeZone }) => civilDay(context.now(), timeZone));
  known.set(context, day);
  return day;
}
