import { type AgreedLine, formatAmount, type IssuedPart, nothing } from '@fairlead/money';
import { coresOfItem } from '../cores-of-item.ts';
import { coreTitle, type PriceList } from '../quoting/queries.ts';
import { type Item, notTaxed, type QuoteLine, type Sources, taxOfQuoted } from './line-source.ts';

/** Parts that an item has: issued less returned, by lot. Of one quoted part only, or of all but those quoted. */
export function partsOf(
  item: Item,
  prices: PriceList,
  sources: Sources,
  { line, except }: { line?: QuoteLine; except?: ReadonlySet<string> },
): IssuedPart[] {
  return [...byLot(item).values()].flatMap(({ quantity, lot: { id: lotId, part, unitCost } }) => {
    const wanted = line ? part.id === line.partId : !except?.has(part.id);
    if (!wanted || quantity.isZero()) return [];
    const movementId = `${item.id}/${lotId}`;
    const tax = line ? taxOfQuoted(line, prices) : prices.taxOf(part.category);
    sources.set(movementId, {
      category: line?.category ?? part.category,
      quoteLineId: line?.id ?? item.quoteLineId,
      itemId: item.id,
      lotId,
      core: false,
      ...notTaxed(tax),
    });
    return [
      {
        movementId,
        title: part.title,
        quantity: quantity.negated().toFixed(),
        unitPrice: line?.unitPrice.toFixed() ?? prices.priceOf(part, unitCost.toFixed()).unitPrice,
        taxCategory: tax.code,
        taxRate: tax.rate,
      },
    ];
  });
}

function byLot({ movements }: Item) {
  const lots = new Map<string, Item['movements'][number]>();
  for (const movement of movements) {
    const before = lots.get(movement.lot.id);
    lots.set(movement.lot.id, {
      ...movement,
      quantity: before ? before.quantity.plus(movement.quantity) : movement.quantity,
    });
  }
  return lots;
}

/**
 * Cores that an item still owes, each as something issued at its charge. Of one quoted core only, or of all but those
 * quoted. What came back is not owed, and so not among them.
 */
export function coresOf(
  item: Item,
  prices: PriceList,
  sources: Sources,
  { line, except }: { line?: QuoteLine; except?: ReadonlySet<string> },
): IssuedPart[] {
  const lots = byLot(item);
  return coresOfItem(item).flatMap(({ lotId, charge, quantity }) => {
    const part = lots.get(lotId)?.lot.part;
    const wanted = line ? part?.id === line.corePartId : !except?.has(part?.id ?? '');
    if (!part || !wanted) return [];
    const movementId = `core/${item.id}/${lotId}`;
    const tax = line ? taxOfQuoted(line, prices) : prices.taxOf(part.category);
    sources.set(movementId, {
      category: line?.category ?? part.category,
      quoteLineId: line?.id ?? null,
      itemId: item.id,
      lotId,
      core: true,
      ...notTaxed(tax),
    });
    return [
      {
        movementId,
        title: coreTitle(part.title),
        quantity,
        unitPrice: formatAmount(charge, prices.currency),
        taxCategory: tax.code,
        taxRate: tax.rate,
      },
    ];
  });
}

/** The cores of an item that nobody quoted, as a line of their own: no price not to be exceeded has them in it. */
export function coresBeside(
  item: Item,
  prices: PriceList,
  sources: Sources,
  quoted: ReadonlySet<string>,
): AgreedLine[] {
  const parts = coresOf(item, prices, sources, { except: quoted });
  const [first] = parts;
  return first
    ? [
        {
          ...{ id: `${item.id}/core`, title: first.title, pricing: 'time_and_materials' },
          ...{ core: true, quotedLabour: nothing, quotedParts: nothing, labourRate: '0' },
          ...{ taxCategory: first.taxCategory, taxRate: first.taxRate, stretches: [], parts },
        },
      ]
    : [];
}
