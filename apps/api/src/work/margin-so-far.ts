import type { Prisma } from '@fairlead/database';
import { type Minor, minor, withinAgreed } from '@fairlead/money';
import type { Context } from '../context.ts';
import { ceilingOf } from '../overrun.ts';
import { shopToday } from '../today.ts';
import { type CostFacts, costFacts, costSoFar, ofOwnerNow } from './cost-so-far.ts';
import { COST_RATE, type OwnCost, type OwnCostFacts, ownCost, ownCostFacts } from './own-cost.ts';
import { coresOwed } from './parts-so-far.ts';
import { priceOfWork } from './price-of-work.ts';
import { type AgreedFacts, agreedFacts, agreedOf, cutOf, inTurn, ourCostOf } from './queries.ts';

/** What an order leaves the shop, so far, net. */
export interface Margin extends OwnCost {
  /** What the work has come to, no further than it is agreed; without what stands for cores, which the supplier charges as well. */
  worth: Minor;
  /** Below 0: a loss. */
  left: Minor;
  /** From when on it counts, where the aircraft was sold mid-work; null: from the beginning. */
  since: Date | null;
}

const agreedRevisions = agreedFacts.quotes.select.revisions;
const [costItems, ownItems] = [costFacts.items.select, ownCostFacts.items.select];

/** What all three are read from: what was agreed, what it came to, and what it cost the shop. */
export const marginFacts = {
  sales: agreedFacts.sales,
  charges: {
    where: costFacts.charges.where,
    select: { ...costFacts.charges.select, ...ownCostFacts.charges.select },
  },
  quotes: {
    select: {
      id: true,
      revisions: {
        ...agreedRevisions,
        select: { ...agreedRevisions.select, lines: { select: { id: true, costMinor: true } } },
      },
    },
  },
  items: {
    orderBy: costFacts.items.orderBy,
    select: {
      ...ownItems,
      ...costItems,
    },
  },
} satisfies Prisma.WorkOrderSelect;

const known = new WeakMap<Context, Promise<string | null>>();

/** What an hour costs the shop today, a plain decimal; asked once a request, however many orders it shows. */
function hourCosts(context: Context): Promise<string | null> {
  const cost = known.get(context) ?? load(context);
  known.set(context, cost);
  return cost;
}

async function load(context: Context): Promise<string | null> {
  const newest = await context.read.labourRate.findFirst({
    where: { kind: COST_RATE, validFrom: { lte: await shopToday(context) } },
    orderBy: [{ validFrom: 'desc' }, { id: 'desc' }],
    select: { rate: true },
  });
  return newest?.rate.toFixed() ?? null;
}

/**
 * For the manager; null for others, and where nobody said what an hour costs or what it is sold for. Where the aircraft was
 * sold mid-work, of the owner of now alone: what was clocked, issued and charged since, against what was agreed since. What is
 * of the seller is settled with the seller's invoice.
 */
export async function marginSoFar(
  context: Context,
  order: CostFacts & AgreedFacts & OwnCostFacts,
): Promise<Margin | null> {
  if (!(await context.roles()).includes('manager')) return null;
  const price = await priceOfWork(context);
  const cost = costSoFar(order, price, context.now());
  const hour = await hourCosts(context);
  if (cost === null || hour === null) return null;
  const since = cutOf(order);
  const now = agreedSince(ofOwnerNow(order), since);
  const own = ownCost(now, hour, price.currency, context.now());
  const within = withinAgreed({
    billed: cost,
    ceiling: ceilingOf(agreedOf(order), price.overrun),
  }).within;
  const cores = coresOwed(now.items.filter((item) => ourCostOf(item) === null));
  const worth = minor(within > cores ? within - cores : 0n);
  return { ...own, worth, left: minor(worth - own.labour - own.parts - own.charges), since };
}

/** Quotes without what a former owner answered. */
function agreedSince<Facts extends AgreedFacts>(order: Facts, after: Date | null): Facts {
  if (after === null) return order;
  const here = inTurn({ after, until: null });
  return {
    ...order,
    quotes: order.quotes.map((quote) => ({
      ...quote,
      revisions: quote.revisions.map((revision) => ({
        ...revision,
        decisions: revision.decisions.filter(({ decidedAt }) => here({ at: decidedAt })),
      })),
    })),
  };
}
