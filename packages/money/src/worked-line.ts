import { formatAmount, type Minor, minor, nothing, sumOf } from './amount.ts';
import { type BilledTimeRule, billedTime } from './billed-hours.ts';
import type { Currency } from './currency.ts';
import type { TaxCategory, Taxed } from './document-totals.ts';
import { lineNet } from './line-net.ts';

/** A stretch of the clock on a line, by its id. */
export interface ClockedStretch {
  readonly stretchId: string;
  /** Whole seconds, 0 or more. */
  readonly seconds: number;
}

/** A part issued to a line, at the price it is sold for. */
export interface IssuedPart extends Taxed {
  /** The stores movement that took it off the shelf. */
  readonly movementId: string;
  readonly title: string;
  readonly quantity: string;
  readonly unitPrice: string;
}

/** What the owner agreed to on one line of a quote or one finding, and what was then done on it. */
export interface AgreedLine {
  readonly id: string;
  readonly title: string;
  /**
   * `fixed`: billed as quoted whatever it took. `time_and_materials`: billed as worked, up to the
   * ceiling. `not_to_exceed`: billed as worked, never above the ceiling, the rest is the shop's.
   */
  readonly pricing: 'fixed' | 'time_and_materials' | 'not_to_exceed';
  /** Agreed after the first quote, when a finding asked for it: scope added with the owner's yes. */
  readonly added?: boolean;
  /** The charge for a core that is still owed: where the order's ceiling holds back, it gives way last. */
  readonly core?: boolean;
  readonly quotedLabour: Minor;
  readonly quotedParts: Minor;
  /** Agreed up to this much on this line, before tax; needed for `not_to_exceed`. */
  readonly ceiling?: Minor;
  /** Price of an hour of labour, a plain decimal. */
  readonly labourRate: string;
  /** For the labour, and for the whole of a fixed price; each part carries its own. */
  readonly taxCategory: TaxCategory;
  readonly taxRate: string;
  readonly stretches: readonly ClockedStretch[];
  readonly parts: readonly IssuedPart[];
}

/** Where a line of the invoice comes from. */
export interface LineOrigin {
  readonly kind: 'fixed' | 'labour' | 'part';
  /** The agreed line: of the quote, or the finding's. */
  readonly lineId: string;
  readonly stretchIds: readonly string[];
  readonly movementIds: readonly string[];
}

/** A line of the invoice: `documentTotals` takes it as it is. */
export interface InvoiceLine extends Taxed {
  readonly id: string;
  readonly origin: LineOrigin;
  readonly title: string;
  readonly quantity: string;
  readonly unit: 'hour' | 'each' | 'job';
  readonly unitPrice: string;
  readonly allowances: readonly { readonly amount: string; readonly reason: string }[];
  readonly net: Minor;
  /** How it was reckoned, where whoever pays should know; else nothing. */
  readonly note: string;
}

/** An agreed line with the amounts its work came to, before anything is held back. */
export interface WorkedLine {
  readonly agreed: AgreedLine;
  readonly invoiceLines: readonly InvoiceLine[];
  readonly labour: Minor;
  readonly parts: Minor;
  readonly worked: Minor;
}

/**
 * What the work on one agreed line comes to at its prices: a fixed price is one line as quoted;
 * otherwise billed hours × rate and a line per part. The hours of a line are added first and rounded
 * once, so that ten short stretches do not cost ten steps.
 *
 * @throws RangeError for amounts below 0, a `not_to_exceed` line without its ceiling, or what
 *   `billedHours` and `lineNet` throw.
 */
export function workedLine(line: AgreedLine, currency: Currency, rule: BilledTimeRule): WorkedLine {
  refuseUnusable(line);
  const { taxCategory, taxRate } = line;
  const stretchIds = line.stretches.map(({ stretchId }) => stretchId);
  const movementIds = line.parts.map(({ movementId }) => movementId);
  if (line.pricing === 'fixed') {
    const net = minor(line.quotedLabour + line.quotedParts);
    const price: InvoiceLine = {
      id: `${line.id}/fixed`,
      origin: { kind: 'fixed', lineId: line.id, stretchIds, movementIds },
      title: line.title,
      quantity: '1',
      unit: 'job',
      unitPrice: formatAmount(net, currency),
      allowances: [],
      net,
      taxCategory,
      taxRate,
      note: '',
    };
    const { quotedLabour: labour, quotedParts: parts } = line;
    return { agreed: line, invoiceLines: [price], labour, parts, worked: net };
  }

  const seconds = line.stretches.reduce((sum, stretch) => sum + stretch.seconds, 0);
  const { hours: quantity, byMinimum } = billedTime(seconds, rule);
  const labour = lineNet({ quantity, unitPrice: line.labourRate }, currency);
  const labourLine: InvoiceLine = {
    id: `${line.id}/labour`,
    origin: { kind: 'labour', lineId: line.id, stretchIds, movementIds: [] },
    title: line.title,
    quantity,
    unit: 'hour',
    unitPrice: line.labourRate,
    allowances: [],
    net: labour,
    taxCategory,
    taxRate,
    note: byMinimum ? minimumWords(seconds, quantity) : '',
  };
  const partLines = line.parts.map((part): InvoiceLine => {
    const net = lineNet(part, currency);
    if (net < 0n) {
      throw new RangeError(
        `Cannot bill ${part.quantity} of "${part.title}" at ${part.unitPrice}: give a quantity and price of 0 or more; a return goes on a credit note`,
      );
    }
    return {
      id: `${line.id}/part/${part.movementId}`,
      origin: {
        kind: 'part',
        lineId: line.id,
        stretchIds: [],
        movementIds: [part.movementId],
      },
      title: part.title,
      quantity: part.quantity,
      unit: 'each',
      unitPrice: part.unitPrice,
      allowances: [],
      net,
      taxCategory: part.taxCategory,
      taxRate: part.taxRate,
      note: '',
    };
  });
  const parts = sumOf(partLines.map(({ net }) => net));
  return {
    agreed: line,
    invoiceLines: seconds > 0 ? [labourLine, ...partLines] : partLines,
    labour,
    parts,
    worked: minor(labour + parts),
  };
}

/** Seconds in the hours and minutes that a person reads off a clock; under a minute, so many seconds. */
const clockWords = (seconds: number) =>
  seconds < 60
    ? `${seconds} s`
    : `${Math.floor(seconds / 3600)} h ${Math.floor(seconds / 60) % 60} min`;

const minimumWords = (seconds: number, hours: string) =>
  `${clockWords(seconds)} on the clock: billed is the shop's minimum of ${hours} h for an item`;

function refuseUnusable(line: AgreedLine): void {
  const { id, quotedLabour, quotedParts, ceiling, pricing } = line;
  const smallest = [quotedLabour, quotedParts, ceiling ?? nothing].find((amount) => amount < 0n);
  if (smallest !== undefined) {
    throw new RangeError(
      `Cannot invoice line ${id}: it was agreed at ${smallest} minor units; give 0 or more`,
    );
  }
  if (pricing === 'not_to_exceed' && ceiling === undefined) {
    throw new RangeError(
      `Cannot invoice line ${id}: it is priced not to exceed, but no ceiling is given`,
    );
  }
}
