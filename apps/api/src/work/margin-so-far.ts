import { type Minor, minor, withinAgreed } from '@fairlead/money';
import type { Context } from '../context.ts';
import { shopToday } from '../today.ts';
import { type CostFacts, costSoFar } from './cost-so-far.ts';
import { COST_RATE, marginFacts, type OwnCost, ownCost } from './own-cost.ts';
import { priceOfWork } from './price-of-work.ts';
import { type AgreedFacts, agreedOf, cutOf } from './queries.ts';

/** What an order leaves the shop, so far, net. */
export interface Margin extends OwnCost {
  /** What the work has come to, no further than it is agreed. */
  worth: Minor;
  /** Below 0: a loss. */
  left: Minor;
}

/** For the manager; null for others, and where nobody said what an hour costs or what it is sold for. */
export async function marginSoFar(
  context: Context,
  order: CostFacts & AgreedFacts & { id: string },
): Promise<Margin | null> {
  if (!(await context.roles()).includes('manager')) return null;
  // Two owners, and the cost of each is not kept apart.
  if (cutOf(order)) return null;
  const price = await priceOfWork(context);
  const cost = costSoFar(order, price, context.now());
  const rate = await context.read.labourRate.findFirst({
    where: { kind: COST_RATE, validFrom: { lte: await shopToday(context) } },
    orderBy: [{ validFrom: 'desc' }, { id: 'desc' }],
    select: { rate: true },
  });
  if (cost === null || rate === null) return null;
  const facts = await context.read.workOrder.findUniqueOrThrow({
    where: { id: order.id },
    select: marginFacts,
  });
  const own = ownCost(facts, rate.rate.toFixed(), price.currency, context.now());
  const worth = withinAgreed({ billed: cost, ceiling: agreedOf(order) }).within;
  return { ...own, worth, left: minor(worth - own.labour - own.parts - own.charges) };
}
