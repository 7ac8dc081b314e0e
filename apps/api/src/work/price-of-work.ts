import { currency } from '@fairlead/money';
import type { Context } from '../context.ts';
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
    select: { currency: true, billingStep: true, billingRounding: true },
  });
  const rate = await context.read.labourRate.findFirst({
    where: { kind: 'mechanic', validFrom: { lte: day } },
    orderBy: [{ validFrom: 'desc' }, { id: 'desc' }],
    select: { rate: true },
  });
  return {
    currency: currency(shop.currency),
    labourRate: rate?.rate.toFixed() ?? null,
    rule: { step: shop.billingStep.toFixed(), rounding: shop.billingRounding },
  };
}
