import {
  type AgreedLine,
  type BillableWork,
  type BilledTimeRule,
  type IssuedPart,
  type Minor,
  minor,
  nothing,
  type OverrunRule,
} from '@fairlead/money';
import { ceilingOf } from '../overrun.ts';
import type { PriceList, Tax } from '../quoting/queries.ts';
import { agreedOf, billedOf, hasBegun } from '../work/queries.ts';
import { chargeLine } from './charges-of-order.ts';
import { coresBeside, coresOf, partsOf } from './issued-parts.ts';
import {
  type Item,
  type LineSource,
  notTaxed,
  type QuoteLine,
  type Sources,
  taxOfQuoted,
} from './line-source.ts';
import type { WorkToBill } from './work-to-bill.ts';

export interface Billable {
  work: BillableWork;
  /** How far the owner's yes went; the ceiling of the work is what the shop's rule allows past it, too. */
  agreed: Minor;
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
 * - A core is billed as far as it is owed on the day of the bill, quoted or not; what came back is not.
 * - An item that nobody quoted is billed by time, at today's rate of its kind, within what is agreed for the order.
 * - What is charged beside the quote stands at the end, as it was said.
 * - What is at the shop's own cost is left out, with its parts and cores; so is a line whose items all are.
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
  { toDate = false, overrun = {} }: { toDate?: boolean; overrun?: OverrunRule } = {},
): Billable {
  const sources: Sources = new Map();
  const labourTax = prices.taxOf('labour');
  const accepted = order.quotes.flatMap(({ findingId, more, revisions: [newest] }) =>
    // Asking for more offers nothing: it raises the ceiling alone.
    !more && newest?.decisions.some(({ choice }) => choice === 'go_ahead')
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
    const quotedCores = new Set(quoted.flatMap(({ corePartId }) => corePartId ?? []));
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
      const tax = taxOfQuoted(line, prices);
      const source = {
        category: line.category,
        quoteLineId: line.id,
        itemId: own[0]?.id ?? null,
        lotId: null,
        core: line.charge === 'core',
        ...notTaxed(tax),
      };
      const agreed = agreedLine(line, added, tax);
      if (line.charge === 'core') {
        const parts = items.flatMap((item) => coresOf(item, prices, sources, { line }));
        add({ ...agreed, stretches: [], parts }, source, []);
        continue;
      }
      add(
        {
          ...agreed,
          ...(putOff && { quotedLabour: nothing }),
          stretches: stretchesOf(own, now),
          parts: line.partId ? ofPart : [],
          ...(toDate && isHalfDone(line, covered) && byTime(line, covered, prices, now)),
        },
        source,
        beside,
      );
      for (const item of own) lines.push(...coresBeside(item, prices, sources, quotedCores));
    }
  }
  for (const item of billedOf(order.items).filter(({ id }) => !seen.has(id))) {
    add(
      {
        id: item.id,
        title: item.title,
        pricing: 'time_and_materials',
        quotedLabour: nothing,
        quotedParts: nothing,
        labourRate: prices.rateOf(item.task?.workKind?.name ?? null).rate,
        taxCategory: labourTax.code,
        taxRate: labourTax.rate,
        stretches: stretchesOf([item], now),
        parts: partsOf(item, prices, sources, {}),
      },
      {
        ...{ category: 'labour', quoteLineId: null, itemId: item.id, lotId: null, core: false },
        ...notTaxed(labourTax),
      },
      [],
    );
    lines.push(...coresBeside(item, prices, sources, new Set()));
  }
  for (const charge of order.charges) {
    const tax = prices.taxOf(charge.category);
    lines.push(chargeLine(charge, tax, prices.currency));
    sources.set(charge.id, {
      ...{ category: charge.category, quoteLineId: null, itemId: null, lotId: null, core: false },
      ...notTaxed(tax),
    });
  }
  const yes = agreedOf(order);
  return {
    work: { currency: prices.currency, lines, billedTime, ceiling: ceilingOf(yes, overrun) },
    agreed: yes,
    sources,
  };
}

function agreedLine(
  line: QuoteLine,
  added: boolean,
  tax: Tax,
): Omit<AgreedLine, 'stretches' | 'parts'> {
  const { id, title, pricing, likelyMinor, partId, charge } = line;
  const core = charge === 'core';
  const ofParts = partId !== null || core;
  return {
    id,
    title,
    // A core is charged as far as it is owed, whatever was quoted.
    pricing: core ? 'time_and_materials' : pricing,
    core,
    added,
    quotedLabour: ofParts ? nothing : minor(likelyMinor),
    quotedParts: ofParts ? minor(likelyMinor) : nothing,
    ...(line.limitMinor !== null && { ceiling: minor(line.limitMinor) }),
    labourRate: line.unitPrice.toFixed(),
    taxCategory: tax.code,
    taxRate: tax.rate,
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
  prices: PriceList,
  now: Date,
): Pick<AgreedLine, 'pricing' | 'ceiling' | 'labourRate' | 'stretches'> => ({
  pricing: 'not_to_exceed',
  ceiling: minor(likelyMinor),
  labourRate: prices.rateOf(null).rate,
  stretches: stretchesOf(covered, now),
});

const stretchesOf = (items: readonly Item[], now: Date) =>
  items.flatMap(({ stretches }) =>
    stretches.map(({ id, startedAt, endedAt }) => ({
      stretchId: id,
      seconds: Math.max(0, Math.floor(((endedAt ?? now).getTime() - startedAt.getTime()) / 1000)),
    })),
  );
