import type { Prisma } from '@fairlead/database';
import { type Currency, lineNet, type Minor, minor, sumOf } from '@fairlead/money';
import { agreedFacts, hasBegun } from './queries.ts';
import { secondsOf } from './stretches.ts';

/** The kind of labour rate that says what an hour costs the shop; it is never quoted or billed. */
export const COST_RATE = 'cost';

/** What an order has cost the shop is read from. */
export const ownCostFacts = {
  charges: { where: { ends: { none: {} } }, select: { costMinor: true } },
  quotes: {
    select: {
      revisions: {
        orderBy: agreedFacts.quotes.select.revisions.orderBy,
        select: {
          decisions: { select: { choice: true } },
          lines: { select: { id: true, costMinor: true } },
        },
      },
    },
  },
  items: {
    select: {
      quoteLineId: true,
      events: { select: { kind: true } },
      stretches: { select: { startedAt: true, endedAt: true } },
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        select: { quantity: true, lot: { select: { unitCost: true } } },
      },
    },
  },
} as const satisfies Prisma.WorkOrderSelect;

export type OwnCostFacts = Prisma.WorkOrderGetPayload<{ select: typeof ownCostFacts }>;

/** What an order has cost the shop so far, net. */
export interface OwnCost {
  labour: Minor;
  parts: Minor;
  /** Of what others charge: outside work, freight and the like, where somebody said what it costs. */
  charges: Minor;
}

/**
 * What the work on an order has cost the shop up to `now`: every clocked hour at what an hour costs, parts issued and not
 * returned at what was paid for them, and the costs of what is charged besides, once any work of its quote has begun.
 *
 * @param hourCosts what an hour costs, a plain decimal
 */
export function ownCost(
  { quotes, items, charges }: OwnCostFacts,
  hourCosts: string,
  currency: Currency,
  now: Date,
): OwnCost {
  const seconds = items
    .flatMap(({ stretches }) => stretches)
    .reduce((sum, stretch) => sum + secondsOf(stretch, now), 0);
  const begun = quotes.flatMap(({ revisions: [newest] }) => {
    const lines = newest?.lines ?? [];
    const own = items.filter(({ quoteLineId }) => lines.some(({ id }) => id === quoteLineId));
    const agreed = newest?.decisions.some(({ choice }) => choice === 'go_ahead');
    return agreed && hasBegun(own) ? lines : [];
  });
  return {
    labour: lineNet(
      { quantity: String(seconds), unitPrice: hourCosts, priceBaseQuantity: '3600' },
      currency,
    ),
    parts: sumOf(
      items
        .flatMap(({ movements }) => movements)
        .map(({ quantity, lot }) =>
          lineNet(
            { quantity: quantity.negated().toFixed(), unitPrice: lot.unitCost.toFixed() },
            currency,
          ),
        ),
    ),
    charges: sumOf([...begun, ...charges].map(({ costMinor }) => minor(costMinor ?? 0n))),
  };
}
