import { currency } from '@fairlead/money';
import { billedTimeColumns, billedTimeOf } from '../billed-time.ts';
import type { Context } from '../context.ts';
import { GENERAL, labourRatesOn, markUpOn } from '../quoting/queries.ts';
import { shopToday } from '../today.ts';
import type { PriceOfWork } from './cost-so-far.ts';

const known = new WeakMap<Context, Promise<PriceOfWork>>();

/** The shop's rate of the day and its rule for billed time; asked once a request, however many orders it shows. */
export function priceOfWork(context: Context): Promise<PriceOfWork> {
  const price = known.get(context) ?? load(context);
  known.set(context, price);
  return price;
}

async function load(context: Context): Promise<PriceOfWork> {
  const day = await shopToday(context);
  const shop = await context.read.shop.findFirstOrThrow({
    select: { currency: true, ...billedTimeColumns },
  });
  const rates = await labourRatesOn(context.read, day);
  const kindRates = new Map([...rates].map(([kind, { rate }]) => [kind, rate]));
  return {
    currency: currency(shop.currency),
    day,
    labourRate: kindRates.get(GENERAL) ?? null,
    kindRates,
    markUp: await markUpOn(context.read, day),
    rule: billedTimeOf(shop),
  };
}
