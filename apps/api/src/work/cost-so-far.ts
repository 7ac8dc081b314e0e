import type { ChargeKind, ItemEventKind, OurCostKind, Pricing, Prisma } from '@fairlead/database';
import { billedHours, lineNet, type Minor, minor, sumOf } from '@fairlead/money';
import {
  hasUnpriced,
  movedFacts,
  type PartedItem,
  partsBeside,
  partsIssued,
} from './parts-so-far.ts';
import type { PriceOfWork } from './price-of-work.ts';
import {
  billedOf,
  cutOf,
  hasBegun,
  inTurn,
  movementsInTurn,
  ourCostFacts,
  soldFacts,
  stretchesInTurn,
} from './queries.ts';
import { secondsOf } from './stretches.ts';

/** What the cost of an order so far is read from. */
export const costFacts = {
  sales: soldFacts,
  charges: { where: { ends: { none: {} } }, select: { amountMinor: true, at: true } },
  items: {
    orderBy: { position: 'asc' },
    select: {
      id: true,
      events: { orderBy: [{ at: 'asc' }, { id: 'asc' }], select: { kind: true, at: true } },
      stretches: { select: { startedAt: true, endedAt: true } },
      atOurCost: ourCostFacts,
      quoteLine: {
        select: {
          id: true,
          pricing: true,
          likelyMinor: true,
          limitMinor: true,
          unitPrice: true,
          // A flat price stands on a line of its own, the lines of its tasks at 0; so do parts, at their quoted price.
          revision: {
            select: {
              lines: {
                where: { taskId: null },
                select: {
                  id: true,
                  pricing: true,
                  charge: true,
                  partId: true,
                  likelyMinor: true,
                  unitPrice: true,
                },
              },
            },
          },
        },
      },
      // Work that nobody quoted is sold at the rate of its kind.
      task: { select: { workKind: { select: { name: true } } } },
      movements: movedFacts,
      cores: { select: { lotId: true, quantity: true } },
    },
  },
} satisfies Prisma.WorkOrderSelect;

interface Exact {
  toString(): string;
}

export interface CostFacts {
  /** Besides what was quoted. */
  charges?: readonly { amountMinor: bigint; at?: Date }[];
  sales?: readonly { sale: { cutAt: Date } }[];
  items: readonly {
    id: string;
    events: readonly { kind: ItemEventKind; at?: Date }[];
    stretches: readonly { startedAt: Date; endedAt: Date | null }[];
    atOurCost?: readonly { kind: OurCostKind | null }[];
    quoteLine: {
      id: string;
      pricing: Pricing;
      likelyMinor: bigint;
      limitMinor: bigint | null;
      unitPrice: Exact;
      revision: {
        lines: readonly {
          id: string;
          pricing: Pricing;
          charge: ChargeKind | null;
          partId: string | null;
          likelyMinor: bigint;
          unitPrice: Exact;
        }[];
      };
    } | null;
    task: { workKind: { name: string } | null } | null;
    movements: PartedItem['movements'];
    cores: PartedItem['cores'];
  }[];
}

/**
 * What the work on an order has come to at its prices, net, up to `now`.
 *
 * - A fixed price counts whole from the first stretch on, or when one of its items is done. A flat price for many
 *   tasks is one such price. What a quote charges besides counts once any of its work has begun.
 * - Otherwise: the clocked time of a quoted line is added, rounded once by the shop's rule, times the rate that was
 *   quoted; work without a quote at today's rate. With a price not to be exceeded, at most that, the parts that
 *   nobody quoted among it: the rest is the shop's, as on the invoice.
 * - Parts issued and not returned, at the price quoted with the item, or else at today's; and what stands for their
 *   cores until the old ones come.
 * - What is charged beside the quote, whole.
 * - Where the aircraft was sold meanwhile, only what is of the owner of now.
 * - What is at the shop's own cost comes to nothing.
 *
 * @returns null when hours were clocked that nobody quoted, and the shop has no rate for today, or a part has no price
 */
export function costSoFar(facts: CostFacts, price: PriceOfWork, now: Date): Minor | null {
  const { items: all, charges = [] } = ofOwnerNow(facts);
  const items = billedOf(all);
  if (hasUnpriced(items, price)) return null;
  const amounts: Minor[] = [];
  const fixedPrices = new Map<string, Minor>();
  for (const together of byLine(items)) {
    const line = together[0]?.quoteLine;
    if (line && hasBegun(together))
      for (const { id, likelyMinor } of firmWith(line)) fixedPrices.set(id, minor(likelyMinor));
    if (line?.pricing === 'fixed') continue;
    const amount = amountWorked(together, price, now);
    if (amount === null) return null;
    amounts.push(amount);
  }
  return sumOf([
    ...fixedPrices.values(),
    ...amounts,
    partsIssued(items, price),
    ...charges.map(({ amountMinor }) => minor(amountMinor)),
  ]);
}

/** What of an order is of the owner of now: all of it, where its aircraft was not sold meanwhile. */
export function ofOwnerNow<Facts extends CostFacts>(facts: Facts): Facts {
  const after = cutOf(facts);
  if (after === null) return facts;
  const turn = { after, until: null };
  const here = inTurn(turn);
  return {
    ...facts,
    charges: facts.charges?.filter(here),
    items: facts.items.map((item) => ({
      ...item,
      events: item.events.filter(here),
      movements: movementsInTurn(item.movements, turn),
      stretches: stretchesInTurn(item.stretches, turn),
    })),
  };
}

type Item = CostFacts['items'][number];

/** Items that one line of the quote pays for, together; one that nobody quoted by itself. Those at the shop's own cost are left out. */
export function byLine(items: readonly Item[]): Item[][] {
  const lines = new Map<string, Item[]>();
  for (const item of billedOf(items)) {
    const key = item.quoteLine?.id ?? item.id;
    lines.set(key, [...(lines.get(key) ?? []), item]);
  }
  return [...lines.values()];
}

/** The rate of a line, or today's of its kind for work that nobody quoted; null where the shop has none. */
export const rateOf = (
  [first]: readonly Item[],
  { labourRate, kindRates }: PriceOfWork,
): string | null =>
  first?.quoteLine?.unitPrice.toString() ??
  kindRates.get(first?.task?.workKind?.name ?? '') ??
  labourRate;

/** Whole seconds on the clock of what one line pays for. */
export const secondsOn = (together: readonly Item[], now: Date): number =>
  together
    .flatMap(({ stretches }) => stretches)
    .reduce((sum, stretch) => sum + secondsOf(stretch, now), 0);

/** The clocked time of a line at its rate, rounded once; null where time was clocked and there is no rate. */
export function labourOf(together: readonly Item[], price: PriceOfWork, now: Date): Minor | null {
  const seconds = secondsOn(together, now);
  const rate = rateOf(together, price);
  if (seconds > 0 && rate === null) return null;
  return lineNet(
    { quantity: billedHours(seconds, price.rule), unitPrice: rate ?? '0' },
    price.currency,
  );
}

/**
 * The clocked time of a line at its rate, or of work without a quote at today's; null where there is none. With its own
 * parts, and no more than its limit, where the line has one.
 */
export function amountWorked(
  together: readonly Item[],
  price: PriceOfWork,
  now: Date,
): Minor | null {
  const labour = labourOf(together, price, now);
  const limit = together[0]?.quoteLine?.limitMinor ?? null;
  if (labour === null || limit === null) return labour;
  const all = sumOf([labour, partsBeside(together, price)]);
  return all < limit ? all : minor(limit);
}

/**
 * What is firm once work on a line has begun: its own price with the flat one over it, and what its quote charges besides.
 * A core is none of it: it is charged as far as it is owed.
 */
export const firmWith = (
  line: NonNullable<Item['quoteLine']>,
): { id: string; likelyMinor: bigint }[] => [
  ...(line.pricing === 'fixed' ? [line] : []),
  ...line.revision.lines.filter(
    ({ pricing, partId, charge }) =>
      pricing === 'fixed' &&
      partId === null &&
      charge !== 'core' &&
      (charge !== null || line.pricing === 'fixed'),
  ),
];
