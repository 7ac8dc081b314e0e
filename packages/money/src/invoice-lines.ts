import { formatAmount, type Minor, minor, nothing, sumOf } from './amount.ts';
import type { BilledTimeRule } from './billed-hours.ts';
import { type Currency, currency as knownCurrency } from './currency.ts';
import { type DifferenceStep, explainDifference } from './explained-difference.ts';
import { pastOrderCeiling, pastOwnCeiling, type Unbilled } from './unbilled.ts';
import { type AgreedLine, type InvoiceLine, type WorkedLine, workedLine } from './worked-line.ts';

/** Work agreed and done, ready to be billed. */
export interface BillableWork {
  readonly currency: Currency;
  readonly lines: readonly AgreedLine[];
  readonly billedTime: BilledTimeRule;
  /** What the owner agreed to for all of it, before tax: see `agreed`. Left out, only the lines' own ceilings hold. */
  readonly ceiling?: Minor;
}

export interface ComposedInvoice {
  readonly lines: readonly InvoiceLine[];
  /** What is held back because nobody agreed to it yet. */
  readonly beyondAuthority: readonly Unbilled[];
  /** What a not-to-exceed price leaves with the shop. */
  readonly carriedByShop: readonly Unbilled[];
  /** Sum of the lines that were in the first quote. */
  readonly quoted: Minor;
  /** Sum of the invoice's lines; document allowances, charges and tax come after it. */
  readonly billed: Minor;
  /** From quoted to billed; the steps add up exactly. */
  readonly difference: readonly DifferenceStep[];
}

/**
 * The lines of an invoice from what was agreed, clocked and issued.
 *
 * Fixed prices are billed as quoted; time and materials as billed hours × rate plus parts; a
 * not-to-exceed line the same, but never above its ceiling. What goes past a line's ceiling, and then
 * past the ceiling for the whole order, is taken off as an allowance with its reason and listed as
 * unbilled, so that worked = billed + unbilled to the cent. The whole order's excess comes off the
 * lines priced by time first (the last one agreed first), then not-to-exceed, then fixed.
 *
 * Rates and prices are the caller's; the rule to bill only what was agreed is common practice, no source.
 *
 * @throws RangeError for two lines with one id, a negative ceiling, or what `workedLine` throws.
 * @example invoiceLines({ currency: 'USD', lines: [{ id: 'q1', title: '100-hour inspection', pricing: 'fixed', quotedLabour: minor(124000n), quotedParts: nothing, labourRate: '98.00', taxCategory: 'S', taxRate: '7', stretches: [], parts: [] }], billedTime: { step: '0.1', rounding: 'up' } }).billed // → 124000n
 */
export function invoiceLines(work: BillableWork): ComposedInvoice {
  const currency = knownCurrency(work.currency);
  refuseTwice(work.lines);
  const worked = work.lines.map((line) => workedLine(line, currency, work.billedTime));
  const pastLine = worked.flatMap(pastOwnCeiling);
  const pastOrder = pastOrderCeiling(worked, pastLine, work.ceiling);
  const unbilled = [...pastLine, ...pastOrder];
  const lines = worked.flatMap(({ agreed, invoiceLines: full }) =>
    heldBack(full, agreed.id, unbilled, currency),
  );
  return {
    lines,
    beyondAuthority: unbilled.filter(({ because }) => because !== 'not_to_exceed'),
    carriedByShop: unbilled.filter(({ because }) => because === 'not_to_exceed'),
    quoted: sumOf(worked.filter(({ agreed }) => agreed.added !== true).map(quotedOf)),
    billed: sumOf(lines.map(({ net }) => net)),
    difference: explainDifference(worked, unbilled),
  };
}

function quotedOf({ agreed }: WorkedLine): Minor {
  return minor(agreed.quotedLabour + agreed.quotedParts);
}

const REASON = {
  line_ceiling: 'Beyond what was agreed for this line: not billed',
  order_ceiling: 'Beyond what was agreed for the order: not billed',
  not_to_exceed: 'Above the price not to be exceeded: not billed',
} as const;

/** Takes the unbilled amounts off an agreed line's invoice lines, in order, none below zero. */
function heldBack(
  full: readonly InvoiceLine[],
  lineId: string,
  unbilled: readonly Unbilled[],
  currency: Currency,
): InvoiceLine[] {
  const lines = [...full];
  for (const { amount, because } of unbilled.filter((part) => part.lineId === lineId)) {
    let left: bigint = amount;
    for (const [index, line] of lines.entries()) {
      const off = minor(left < line.net ? left : line.net);
      if (off > nothing) {
        const allowance = { amount: formatAmount(off, currency), reason: REASON[because] };
        const net = minor(line.net - off);
        lines[index] = { ...line, allowances: [...line.allowances, allowance], net };
        left -= off;
      }
    }
  }
  return lines;
}

function refuseTwice(lines: readonly AgreedLine[]): void {
  const seen = new Set<string>();
  for (const { id } of lines) {
    if (seen.has(id)) {
      throw new RangeError(`Cannot invoice two lines with the id ${id}: give each its own`);
    }
    seen.add(id);
  }
}
