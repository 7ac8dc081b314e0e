import type { Prisma } from '@fairlead/database';
import { billedHoursOf, lineNet, type Minor, minor, sumOf } from '@fairlead/money';
import { inThousandths } from '../cores-of-item.ts';
import { askedFacts } from '../hindsight/index.ts';
import { itemFacts, itemState } from '../states.ts';
import {
  byLine,
  type CostFacts,
  costFacts,
  firmWith,
  labourOf,
  ofOwnerNow,
  rateOf,
  secondsOn,
} from './cost-so-far.ts';
import { hasUnpriced, netOf, partsBeside, partsIssued } from './parts-so-far.ts';
import type { PriceOfWork } from './price-of-work.ts';
import { billedOf, hasBegun } from './queries.ts';

const costOfItem = costFacts.items.select;

/** What the cost of an order at its end is reckoned from. */
export const completionFacts = {
  aircraft: { select: { registration: true, model: { select: { maker: true, name: true } } } },
  sales: costFacts.sales,
  charges: costFacts.charges,
  items: {
    orderBy: { position: 'asc' },
    select: {
      ...askedFacts,
      ...costOfItem,
      ...itemFacts,
      task: { select: { ...askedFacts.task.select, ...costOfItem.task.select } },
      events: {
        orderBy: itemFacts.events.orderBy,
        select: { ...itemFacts.events.select, kind: true, at: true },
      },
      stretches: { select: { startedAt: true, endedAt: true } },
      quoteLine: {
        select: {
          ...costOfItem.quoteLine.select,
          asked: true,
          revision: {
            select: {
              id: true,
              lines: {
                where: { taskId: null },
                select: {
                  ...costOfItem.quoteLine.select.revision.select.lines.select,
                  quantity: true,
                },
              },
            },
          },
        },
      },
    },
  },
} as const satisfies Prisma.WorkOrderSelect;

export type CompletionFacts = Prisma.WorkOrderGetPayload<{ select: typeof completionFacts }>;
type Item = CompletionFacts['items'][number];

/** An amount as it is distributed, net, minor units. */
export interface AmountSpread {
  p10: Minor;
  p50: Minor;
  p80: Minor;
  p90: Minor;
}

export const isOpen = (item: Item): boolean =>
  ['open', 'in_work', 'waiting'].includes(itemState(item));

/**
 * What an order comes to when all that is left of it is done, net: firm prices whole; by time what was clocked and what is
 * left, billed together by the shop's rule, at the rate, no more than a price not to be exceeded; parts issued, and those quoted that are still to come. What was
 * put off before it began is left out, and so is what nobody has agreed to yet.
 *
 * Sums of doubles, rounded at the end: a forecast, not an amount that anybody owes.
 *
 * @param left hours left of each open item in each of so many draws, by the item's id
 * @returns null where work is to be paid by time and the shop has no rate for it, or a part has no price
 */
export function costAtCompletion(
  order: Pick<CompletionFacts, 'items'> & Partial<Pick<CompletionFacts, 'charges' | 'sales'>>,
  price: PriceOfWork,
  left: ReadonlyMap<string, Float64Array>,
  { draws, now }: { draws: number; now: Date },
): AmountSpread | null {
  const { items } = order;
  const { items: ofNow, charges = [] } = ofOwnerNow<CostFacts>(order);
  const facts = billedOf(ofNow);
  if (hasUnpriced(facts, price)) return null;
  const openIds = new Set(items.filter(isOpen).map(({ id }) => id));
  const goesOn = ({ id }: { id: string }) => openIds.has(id);
  const firm = new Map<string, bigint>();
  const sums = new Float64Array(draws);
  const billed = billedHoursOf(price.rule);
  for (const together of byLine(facts)) {
    const line = together[0]?.quoteLine;
    if (line && (together.some(goesOn) || hasBegun(together)))
      for (const { id, likelyMinor } of firmWith(line)) firm.set(id, likelyMinor);
    if (line?.pricing === 'fixed') continue;
    const labour = labourOf(together, price, now);
    const rate = rateOf(together, price);
    if (labour === null || (rate === null && together.some(goesOn))) return null;
    const anHour = Number(lineNet({ quantity: '1', unitPrice: rate ?? '0' }, price.currency));
    const limit = line?.limitMinor ?? null;
    const beside = Number(limit === null ? 0n : partsBeside(together, price));
    const clocked = secondsOn(together, now) / 3600;
    const hours = together.flatMap(({ id }) => left.get(id) ?? []);
    for (let draw = 0; draw < draws; draw += 1) {
      const whole = hours.reduce((sum, of) => sum + of[draw]!, clocked);
      // What is on the clock is billed at its exact rate already.
      const comesTo = Math.max(anHour * billed(whole), Number(labour)) + beside;
      sums[draw]! += limit === null ? comesTo : Math.min(comesTo, Number(limit));
    }
  }
  const base = sumOf([
    ...[...firm.values()].map(minor),
    partsIssued(facts, price),
    ...partsToCome(billedOf(items), price),
    ...charges.map(({ amountMinor }) => minor(amountMinor)),
  ]);
  sums.sort();
  const at = (share: number) =>
    minor(base + BigInt(Math.round(sums[Math.min(draws - 1, Math.floor(share * draws))]!)));
  return { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90: at(0.9) };
}

/** Parts that were quoted and not issued yet, of quotes whose work goes on. */
function partsToCome(items: readonly Item[], { currency }: PriceOfWork): Minor[] {
  const revisions = new Map(
    items.flatMap((item) =>
      item.quoteLine && isOpen(item) ? [[item.quoteLine.revision.id, item.quoteLine.revision]] : [],
    ),
  );
  return [...revisions.values()].flatMap(({ id, lines }) => {
    const own = items.filter(({ quoteLine }) => quoteLine?.revision.id === id);
    return lines.flatMap(({ partId, quantity, unitPrice }) => {
      if (partId === null) return [];
      const issued = own
        .flatMap(({ movements }) => movements)
        .filter(({ lot }) => lot.part.id === partId)
        .reduce((sum, movement) => sum - inThousandths(movement.quantity), 0n);
      const still = inThousandths(quantity) - issued;
      return still > 0n ? [netOf(still, unitPrice.toString(), currency)] : [];
    });
  });
}
