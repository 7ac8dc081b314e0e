import type { Prisma } from '@fairlead/database';
import {
  type AgreedLine,
  type BillableWork,
  type BilledTimeRule,
  type IssuedPart,
  minor,
  nothing,
} from '@fairlead/money';
import type { PriceList } from '../quoting/queries.ts';
import { agreedOf, billedOf, hasBegun } from '../work/queries.ts';
import { chargeLine } from './charges-of-order.ts';
import type { WorkToBill } from './work-to-bill.ts';

type Item = WorkToBill['items'][number];
type QuoteLine = WorkToBill['quotes'][number]['revisions'][number]['lines'][number];

/** What the lines of an invoice need to be kept with, by the id of the agreed line or of the part issued. */
export interface LineSource {
  category: Prisma.InvoiceLineUncheckedCreateInput['category'];
  quoteLineId: string | null;
  itemId: string | null;
  lotId: string | null;
}

export interface Billable {
  work: BillableWork;
  sources: ReadonlyMap<string, LineSource>;
}

/**
 * Puts together what was agreed, clocked and issued.
 *
 * - Every line of a quote that the owner accepted is an agreed line. A quote for a finding is scope added.
 * - A fixed price is billed once its work has begun; what was put off whole is not billed. What is charged besides is
 *   billed once any work of its quote has begun.
 * - A line with a task carries the stretches of its item; a line of a part the units of that part issued to the
 *   items of the same quote, at the price quoted.
 * - Other parts issued to an item are billed with that item's line; where the line has a flat price, beside it,
 *   since the flat price is for the work (common practice, no source). They cost today's price.
 * - An item that nobody quoted is billed by time, at today's rate, within what is agreed for the order.
 * - What is charged beside the quote stands at the end, as it was said.
 * - What is at the shop's own cost is left out, with its parts; so is a line whose items all are.
 *
 * @param now up to when a clock that runs counts
 * @param toDate where the aircraft was sold mid-work: a fixed price whose work is not all done is billed by the time clocked on it,
 *   never above that price (common practice, no source)
 */
export function billableWork(
  order: WorkToBill,
  prices: PriceList,
  billedTime: BilledTimeRule,
  now: Date,
  { toDate = false }: { toDate?: boolean } = {},
): Billable {
  const sources = new Map<string, LineSource>();
  const labourTax = prices.taxOf('labour');
  const accepted = order.quotes.flatMap(({ findingId, revisions: [newest] }) =>
    newest?.decisions.some(({ choice }) => choice === 'go_ahead')
      ? [{ added: findingId !== null, lines: newest.lines }]
      : [],
  );
  const lines: AgreedLine[] = [];
  const add = (line: AgreedLine, source: LineSource, extraParts: readonly IssuedPart[]) => {
    const flat = line.pricing === 'fixed';
    lines.push(flat ? line : { ...line, parts: [...line.parts, ...extraParts] });
    sources.set(line.id, source);
    if (flat && extraParts.length > 0) {
      lines.push({
        ...line,
        id: `${line.id}/parts`,
        pricing: 'time_and_materials',
        quotedLabour: nothing,
        quotedParts: nothing,
        stretches: [],
        parts: extraParts,
      });
      sources.set(`${line.id}/parts`, source);
    }
  };

  const seen = new Set<string>();
  for (const { added, lines: quoted } of accepted) {
    const sold = order.items.filter(({ quoteLineId }) =>
      quoted.some(({ id }) => id === quoteLineId),
    );
    for (const { id } of sold) seen.add(id);
    const items = billedOf(sold);
    if (items.length === 0 && sold.length > 0) continue;
    const quotedParts = new Set(quoted.flatMap(({ partId }) => partId ?? []));
    const atOnePrice = items.filter(({ quoteLineId }) =>
      quoted.some(({ id, pricing }) => pricing === 'fixed' && id === quoteLineId),
    );
    for (const line of quoted) {
      const own = items.filter(({ quoteLineId }) => quoteLineId === line.id);
      if (own.length === 0 && sold.some(({ quoteLineId }) => quoteLineId === line.id)) continue;
      const priced = own.length > 0 ? own : atOnePrice;
      const covered = line.charge === null ? priced : items;
      const putOff = line.pricing === 'fixed' && covered.length > 0 && !hasBegun(covered);
      const ofPart = items.flatMap((item) => partsOf(item, prices, sources, { line }));
      const beside = own.flatMap((item) => partsOf(item, prices, sources, { except: quotedParts }));
      const source = {
        category: line.category,
        quoteLineId: line.id,
        itemId: own[0]?.id ?? null,
        lotId: null,
      };
      add(
        {
          ...agreedLine(line, added),
          ...(putOff && { quotedLabour: nothing }),
          stretches: stretchesOf(own, now),
          parts: line.partId ? ofPart : [],
          ...(toDate && isHalfDone(line, covered) && byTime(line, covered, prices, now)),
        },
        source,
        beside,
      );
    }
  }
  for (const item of billedOf(order.items).filter(({ id }) => !seen.has(id)))
    add(
      {
        id: item.id,
        title: item.title,
        pricing: 'time_and_materials',
        quotedLabour: nothing,
        quotedParts: nothing,
        labourRate: prices.labourRate,
        taxCategory: labourTax.code,
        taxRate: labourTax.rate,
        stretches: stretchesOf([item], now),
        parts: partsOf(item, prices, sources, {}),
      },
      { category: 'labour', quoteLineId: null, itemId: item.id, lotId: null },
      [],
    );
  for (const charge of order.charges) {
    const { id, category } = charge;
    lines.push(chargeLine(charge, prices));
    sources.set(id, { category, quoteLineId: null, itemId: null, lotId: null });
  }
  return {
    work: { currency: prices.currency, lines, billedTime, ceiling: agreedOf(order) },
    sources,
  };
}

function agreedLine(line: QuoteLine, added: boolean): Omit<AgreedLine, 'stretches' | 'parts'> {
  const { id, title, pricing, likelyMinor, partId } = line;
  return {
    id,
    title,
    pricing,
    added,
    quotedLabour: partId ? nothing : minor(likelyMinor),
    quotedParts: partId ? minor(likelyMinor) : nothing,
    ...(line.limitMinor !== null && { ceiling: minor(line.limitMinor) }),
    labourRate: line.unitPrice.toFixed(),
    taxCategory: line.taxCode as AgreedLine['taxCategory'],
    taxRate: line.taxRate.toFixed(),
  };
}

/** A firm price for work of which some is done and some is not. */
const isHalfDone = (
  { pricing, charge, partId, likelyMinor }: QuoteLine,
  covered: readonly Item[],
) =>
  pricing === 'fixed' &&
  charge === null &&
  partId === null &&
  likelyMinor > 0n &&
  hasBegun(covered) &&
  !covered.every(({ events }) => events.some(({ kind }) => kind === 'done'));

/** A firm price as the time that was clocked on all that it covers, up to the price. */
const byTime = (
  { likelyMinor }: QuoteLine,
  covered: readonly Item[],
  { labourRate }: PriceList,
  now: Date,
): Pick<AgreedLine, 'pricing' | 'ceiling' | 'labourRate' | 'stretches'> => ({
  pricing: 'not_to_exceed',
  ceiling: minor(likelyMinor),
  labourRate,
  stretches: stretchesOf(covered, now),
});

const stretchesOf = (items: readonly Item[], now: Date) =>
  items.flatMap(({ stretches }) =>
    stretches.map(({ id, startedAt, endedAt }) => ({
      stretchId: id,
      seconds: Math.max(0, Math.floor(((endedAt ?? now).getTime() - startedAt.getTime()) / 1000)),
    })),
  );

/** Parts that an item has: issued less returned, by lot. Of one quoted part only, or of all but those quoted. */
function partsOf(
  item: Item,
  prices: PriceList,
  sources: Map<string, LineSource>,
  { line, except }: { line?: QuoteLine; except?: ReadonlySet<string> },
): IssuedPart[] {
  const byLot = new Map<string, Item['movements'][number]>();
  for (const movement of item.movements) {
    const before = byLot.get(movement.lot.id);
    byLot.set(movement.lot.id, {
      ...movement,
      quantity: before ? before.quantity.plus(movement.quantity) : movement.quantity,
    });
  }
  return [...byLot.values()].flatMap(({ quantity, lot: { id: lotId, part } }) => {
    const wanted = line ? part.id === line.partId : !except?.has(part.id);
    if (!wanted || quantity.isZero()) return [];
    const movementId = `${item.id}/${lotId}`;
    const tax = line ? null : prices.taxOf(part.category);
    sources.set(movementId, {
      category: line?.category ?? part.category,
      quoteLineId: line?.id ?? item.quoteLineId,
      itemId: item.id,
      lotId,
    });
    return [
      {
        movementId,
        title: part.title,
        quantity: quantity.negated().toFixed(),
        unitPrice: (line?.unitPrice ?? part.unitPrice).toFixed(),
        taxCategory: tax?.code ?? (line?.taxCode as IssuedPart['taxCategory']),
        taxRate: tax?.rate ?? line?.taxRate.toFixed() ?? '0',
      },
    ];
  });
}
