import type { Tx } from '@fairlead/database';
import { type BilledTimeRule, type Currency, currency, type OverrunRule } from '@fairlead/money';
import { billedTimeColumns, billedTimeOf } from '../billed-time.ts';
import type { Context } from '../context.ts';
import { overrunColumns, overrunOf } from '../overrun.ts';
import type { MarkUp } from '../part-price.ts';
import { GENERAL, labourRatesOn, markUpOn } from '../quoting/queries.ts';
import { shopToday } from '../today.ts';

/** What work is priced with today. */
export interface PriceOfWork {
  currency: Currency;
  day: Date;
  /** Price of a mechanic's hour today; null where the shop has none. */
  labourRate: string | null;
  /** Of an hour of each kind of work that has a rate of its own today. */
  kindRates: ReadonlyMap<string, string>;
  /** How the cost of parts without a price of their own is marked up today. */
  markUp: MarkUp | null;
  rule: BilledTimeRule;
  /** How far work may go past the owner's yes without asking. */
  overrun: OverrunRule;
}

const known = new WeakMap<Context, Promise<PriceOfWork>>();

/** The shop's rate of the day and its rule for billed time; asked once a request, however many orders it shows. */
export function priceOfWork(context: Context): Promise<PriceOfWork> {
  const price =
    known.get(context) ?? shopToday(context).then((day) => priceUnder(context.read, day));
  known.set(context, price);
  return price;
}

/** The same, read anew within a transaction: what something is held against is what holds while it is written. */
export async function priceUnder(tx: Tx, day: Date): Promise<PriceOfWork> {
  const shop = await tx.shop.findFirstOrThrow({
    select: { currency: true, ...billedTimeColumns, ...overrunColumns },
  });
  const rates = await labourRatesOn(tx, day);
  const kindRates = new Map([...rates].map(([kind, { rate }]) => [kind, rate]));
  return {
    currency: currency(shop.currency),
    day,
    labourRate: kindRates.get(GENERAL) ?? null,
    kindRates,
    markUp: await markUpOn(tx, day),
    rule: billedTimeOf(shop),
    overrun: overrunOf(shop),
  };
}
