import type { Prisma } from '@fairlead/database';
import { type Currency, lineNet, type Minor, sumOf } from '@fairlead/money';
import { coresOfItem, type ItemCores, inThousandths } from '../cores-of-item.ts';
import { type PartPriceFacts, partPriceFacts, priceOfPart } from '../part-price.ts';
import type { PriceOfWork } from './price-of-work.ts';

interface Exact {
  toString(): string;
}

/** What the parts of an item are priced from. */
export const movedFacts = {
  where: { kind: { in: ['issue', 'return'] } },
  select: {
    quantity: true,
    at: true,
    lot: {
      select: {
        ...{ id: true, coreChargeMinor: true, unitCost: true },
        part: { select: partPriceFacts },
      },
    },
  },
} satisfies Prisma.WorkItem$movementsArgs;

export interface PartedItem extends ItemCores {
  quoteLine: {
    limitMinor: bigint | null;
    revision: { lines: readonly { partId: string | null; unitPrice: Exact }[] };
  } | null;
  movements: readonly {
    quantity: Exact;
    at?: Date;
    lot: {
      id: string;
      coreChargeMinor: bigint | null;
      unitCost: Exact;
      part: PartPriceFacts & { id: string };
    };
  }[];
}

const isLimited = ({ quoteLine }: PartedItem): boolean => (quoteLine?.limitMinor ?? null) !== null;

/** Parts issued and not returned, and the cores that they owe; parts that nobody quoted are within a price not to be exceeded, where there is one. */
export const partsIssued = (items: readonly PartedItem[], price: PriceOfWork): Minor =>
  sumOf([
    ...items.flatMap((item) =>
      partsOf(item, price).flatMap(({ quoted, amount }) =>
        quoted || !isLimited(item) ? [amount] : [],
      ),
    ),
    coresOwed(items),
  ]);

/** What stands for old parts that have not come. */
export const coresOwed = (items: readonly ItemCores[]): Minor =>
  sumOf(items.flatMap(coresOfItem).map(({ amount }) => amount));

/** Parts that nobody quoted, which a price not to be exceeded has in it. */
export const partsBeside = (together: readonly PartedItem[], price: PriceOfWork): Minor =>
  sumOf(
    together
      .flatMap((item) => partsOf(item, price))
      .flatMap(({ quoted, amount }) => (quoted ? [] : [amount])),
  );

/** Whether a part was issued that nobody quoted, and that neither a price nor a band of cost says the price of. */
export const hasUnpriced = (items: readonly PartedItem[], price: PriceOfWork): boolean =>
  items.some(({ movements, quoteLine }) => {
    const quoted = new Set(quoteLine?.revision.lines.map(({ partId }) => partId));
    return movements.some(({ lot }) => !quoted.has(lot.part.id) && priceOf(lot, price) === null);
  });

const priceOf = (
  { part, unitCost }: PartedItem['movements'][number]['lot'],
  { day, markUp }: PriceOfWork,
): string | null =>
  priceOfPart(part, { day, unitCost: unitCost.toString(), markUp })?.unitPrice ?? null;

/** Each part at its price once: what was issued less what came back, rounded as the line of an invoice is. */
function partsOf(
  { movements, quoteLine }: PartedItem,
  price: PriceOfWork,
): { quoted: boolean; amount: Minor }[] {
  const quoted = new Map(quoteLine?.revision.lines.map((line) => [line.partId, line.unitPrice]));
  const sold = new Map<string, { quoted: boolean; quantity: bigint; unitPrice: string }>();
  for (const { quantity, lot } of movements) {
    const { id } = lot.part;
    // Without a price the whole has none: see `hasUnpriced`.
    const unitPrice = quoted.get(id)?.toString() ?? priceOf(lot, price) ?? '0';
    const key = `${id} ${unitPrice}`;
    sold.set(key, {
      quoted: quoted.has(id),
      quantity: (sold.get(key)?.quantity ?? 0n) - inThousandths(quantity),
      unitPrice,
    });
  }
  return [...sold.values()].map(({ quoted: agreed, quantity, unitPrice }) => ({
    quoted: agreed,
    amount: netOf(quantity, unitPrice, price.currency),
  }));
}

/** So many thousandths of a unit at its price. */
export const netOf = (thousandths: bigint, unitPrice: string, currency: Currency): Minor =>
  lineNet({ quantity: `${thousandths}`, unitPrice, priceBaseQuantity: '1000' }, currency);
