import type { ChargeKind, ItemEventKind, OurCostKind, Pricing, Prisma } from '@fairlead/database';
import {
  type BilledTimeRule,
  billedHours,
  type Currency,
  lineNet,
  type Minor,
  minor,
  sumOf,
} from '@fairlead/money';
import {
  billedOf,
  cutOf,
  hasBegun,
  inTurn,
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
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        select: {
          quantity: true,
          at: true,
          lot: { select: { part: { select: { id: true, unitPrice: true } } } },
        },
      },
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
    movements: readonly {
      quantity: Exact;
      at?: Date;
      lot: { part: { id: string; unitPrice: Exact } };
    }[];
  }[];
}

export interface PriceOfWork {
  currency: Currency;
  /** Price of a mechanic's hour today; null where the shop has none. */
  labourRate: string | null;
  rule: BilledTimeRule;
}

/**
 * What the work on an order has come to at its prices, net, up to `now`.
 *
 * - A fixed price counts whole from the first stretch on, or when one of its items is done. A flat price for many
 *   tasks is one such price. What a quote charges besides counts once any of its work has begun.
 * - Otherwise: the clocked time of a quoted line is added, rounded once by the shop's rule, times the rate that was
 *   quoted; work without a quote at today's rate. With a price not to be exceeded, at most that, the parts that
 *   nobody quoted among it: the rest is the shop's, as on the invoice.
 * - Parts issued and not returned, at the price quoted with the item, or else at today's.
 * - What is charged beside the quote, whole.
 * - Where the aircraft was sold meanwhile, only what is of the owner of now.
 * - What is at the shop's own cost comes to nothing.
 *
 * @returns null when hours were clocked that nobody quoted, and the shop has no rate for today
 */
export function costSoFar(facts: CostFacts, price: PriceOfWork, now: Date): Minor | null {
  const { items, charges = [] } = ofOwnerNow(facts);
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
    partsIssued(items, price.currency),
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
      movements: item.movements.filter(here),
      stretches: stretchesInTurn(item.stretches, turn),
    })),
  };
}

type Item = CostFacts['items'][number];

/** Parts issued and not returned; those that nobody quoted are within a price not to be exceeded, where there is one. */
export const partsIssued = (items: readonly Item[], currency: Currency): Minor =>
  sumOf(
    billedOf(items).flatMap((item) =>
      partsOf(item, currency).flatMap(({ quoted, amount }) =>
        quoted || !isLimited(item) ? [amount] : [],
      ),
    ),
  );

/** Items that one line of the quote pays for, together; one that nobody quoted by itself. Those at the shop's own cost are left out. */
export function byLine(items: readonly Item[]): Item[][] {
  const lines = new Map<string, Item[]>();
  for (const item of billedOf(items)) {
    const key = item.quoteLine?.id ?? item.id;
    lines.set(key, [...(lines.get(key) ?? []), item]);
  }
  return [...lines.values()];
}

const isLimited = ({ quoteLine }: Item): boolean => (quoteLine?.limitMinor ?? null) !== null;

/** The rate of a line, or today's for work that nobody quoted; null where the shop has none. */
export const rateOf = (together: readonly Item[], { labourRate }: PriceOfWork): string | null =>
  together[0]?.quoteLine?.unitPrice.toString() ?? labourRate;

/** The clocked time of a line at its rate, rounded once; null where time was clocked and there is no rate. */
export function labourOf(together: readonly Item[], price: PriceOfWork, now: Date): Minor | null {
  const seconds = together
    .flatMap(({ stretches }) => stretches)
    .reduce((sum, stretch) => sum + secondsOf(stretch, now), 0);
  const rate = rateOf(together, price);
  if (seconds > 0 && rate === null) return null;
  return lineNet(
    { quantity: billedHours(seconds, price.rule), unitPrice: rate ?? '0' },
    price.currency,
  );
}

/** Parts that nobody quoted, which a price not to be exceeded has in it. */
export const partsBeside = (together: readonly Item[], currency: Currency): Minor =>
  sumOf(
    together
      .flatMap((item) => partsOf(item, currency))
      .flatMap(({ quoted, amount }) => (quoted ? [] : [amount])),
  );

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
  const all = sumOf([labour, partsBeside(together, price.currency)]);
  return all < limit ? all : minor(limit);
}

/** What is firm once work on a line has begun: its own price with the flat one over it, and what its quote charges besides. */
export const firmWith = (
  line: NonNullable<Item['quoteLine']>,
): { id: string; likelyMinor: bigint }[] => [
  ...(line.pricing === 'fixed' ? [line] : []),
  ...line.revision.lines.filter(
    ({ pricing, partId, charge }) =>
      pricing === 'fixed' && partId === null && (charge !== null || line.pricing === 'fixed'),
  ),
];

/** Each part once: what was issued less what came back, rounded as the line of an invoice is. */
function partsOf(
  { movements, quoteLine }: CostFacts['items'][number],
  currency: Currency,
): { quoted: boolean; amount: Minor }[] {
  const quoted = new Map(quoteLine?.revision.lines.map((line) => [line.partId, line.unitPrice]));
  const thousandths = new Map<string, { quantity: bigint; unitPrice: string }>();
  for (const { quantity, lot } of movements) {
    const { id, unitPrice } = lot.part;
    thousandths.set(id, {
      quantity: (thousandths.get(id)?.quantity ?? 0n) - inThousandths(quantity),
      unitPrice: (quoted.get(id) ?? unitPrice).toString(),
    });
  }
  return [...thousandths].map(([id, { quantity, unitPrice }]) => ({
    quoted: quoted.has(id),
    amount: lineNet(
      { quantity: quantity.toString(), unitPrice, priceBaseQuantity: '1000' },
      currency,
    ),
  }));
}

/** Quantities are kept with three decimals. */
export function inThousandths(quantity: Exact): bigint {
  const [, sign = '', whole = '0', decimals = ''] =
    /^(-?)(\d+)(?:\.(\d{1,3}))?$/.exec(quantity.toString()) ?? [];
  return BigInt(`${sign}${whole}${decimals.padEnd(3, '0')}`);
}
