import type { Prisma } from '@fairlead/database';
import {
  type Currency,
  documentTotals,
  formatAmount,
  type InvoiceLine,
  invoiceLines,
  type Minor,
  minor,
  parseAmount,
  sumOf,
} from '@fairlead/money';
import type { Billable } from './billable-work.ts';
import type { LineSource } from './line-source.ts';

export type LineData = Omit<
  Prisma.InvoiceLineUncheckedCreateInput,
  'id' | 'shopId' | 'invoiceId'
> & { netMinor: bigint };

/** An invoice before it is kept. */
export interface ComposedInvoice {
  lines: LineData[];
  netMinor: bigint;
  taxMinor: bigint;
  grossMinor: bigint;
  /** How far the owner's yes goes, net. */
  agreedMinor: bigint;
  /** Worked, but past what was agreed: not billed. */
  beyondMinor: bigint;
}

/**
 * The lines and totals of an invoice. What is held back of a line stands right below it as a line of its own with
 * a quantity of −1, since a price is never negative (EN 16931, BR-27); so every line reads quantity × price.
 *
 * @param besides lines of nothing that stand at the end: what is at the shop's own cost
 */
export function composeInvoice(
  { work, agreed, sources }: Billable,
  besides: readonly LineData[] = [],
): ComposedInvoice {
  const composed = invoiceLines(work);
  const priced = composed.lines
    .filter(({ net, allowances }) => net !== 0n || allowances.length > 0)
    .flatMap((line) => [
      whole(line, sourceOf(line, sources), work.currency),
      ...heldBack(line, sourceOf(line, sources), work.currency),
    ]);
  const lines = priced.length === 0 ? [] : [...priced, ...besides];
  const totals = documentTotals({
    currency: work.currency,
    lines: lines.map((line, index) => ({
      id: `${index}`,
      quantity: '1',
      unitPrice: formatAmount(minor(line.netMinor), work.currency),
      taxCategory: line.taxCode as InvoiceLine['taxCategory'],
      taxRate: String(line.taxRate),
    })),
  });
  return {
    lines: lines.map((line, index) => ({ ...line, position: index + 1 })),
    netMinor: totals.net,
    taxMinor: totals.taxTotal,
    grossMinor: totals.gross,
    agreedMinor: agreed,
    beyondMinor: sumOf(composed.beyondAuthority.map(({ amount }) => amount)),
  };
}

const none: LineSource = {
  ...{ category: 'labour', quoteLineId: null, itemId: null, lotId: null },
  ...{ core: false, exemptionId: null, taxReason: '' },
};

function sourceOf({ origin }: InvoiceLine, sources: Billable['sources']): LineSource {
  const [part] = origin.kind === 'part' ? origin.movementIds : [];
  return sources.get(part ?? origin.lineId) ?? none;
}

/** The line as worked, before anything is held back. */
function whole(line: InvoiceLine, source: LineSource, currency: Currency): LineData {
  const held = sumOf(line.allowances.map(({ amount }) => parseAmount(amount, currency)));
  const net: Minor = minor(line.net + held);
  return {
    ...source,
    position: 0,
    title: line.title,
    quantity: line.quantity,
    unit: line.unit,
    unitPrice: line.unit === 'job' ? formatAmount(net, currency) : line.unitPrice,
    netMinor: net,
    taxCode: line.taxCategory,
    taxRate: line.taxRate,
    note: line.note,
  };
}

/** Unit of a line that takes off what is not billed. */
export const HELD = 'not billed';

function heldBack(line: InvoiceLine, source: LineSource, currency: Currency): LineData[] {
  return line.allowances.map(({ amount, reason }) => ({
    ...source,
    // Of a core it stays known of which: so much less is given back when that comes.
    lotId: source.core ? source.lotId : null,
    position: 0,
    title: `${line.title}. ${reason}`,
    quantity: '-1',
    unit: HELD,
    unitPrice: amount,
    netMinor: -parseAmount(amount, currency),
    taxCode: line.taxCategory,
    taxRate: line.taxRate,
  }));
}
