import { formatAmount, type Minor, minor, sumOf } from './amount.ts';
import type { Currency } from './currency.ts';
import { documentTotals, type Taxed } from './document-totals.ts';

/** An issued invoice, or a credit note that took back a part of it: negative then. */
export interface StandingDocument {
  readonly lines: readonly (Taxed & { readonly net: Minor })[];
  /** What was to be paid, or paid back: net, tax and rounding. */
  readonly gross: Minor;
}

export interface ClosingCredit {
  readonly net: Minor;
  readonly tax: Minor;
  readonly rounding: Minor;
  readonly gross: Minor;
}

/**
 * What the credit note comes to that takes back all that remains of an invoice.
 *
 * Its lines are those of all documents that stand, each with the other sign; its tax is that of its own lines (EN 16931,
 * BR-CO-17). Tax rounded once for the invoice and again for each note in part may add to a minor unit more or less than there
 * was: the note carries that as its rounding amount (BT-114, BR-CO-16), so that what is paid back is exactly what remains.
 *
 * @throws RangeError what `documentTotals` throws
 * @example closingCredit('USD', [{ lines: [{ net: minor(100n), taxCategory: 'S', taxRate: '7' }], gross: minor(107n) }, { lines: [{ net: minor(-50n), taxCategory: 'S', taxRate: '7' }], gross: minor(-54n) }]) // → { net: -50n, tax: -4n, rounding: 1n, gross: -53n }
 */
export function closingCredit(
  currency: Currency,
  standing: readonly StandingDocument[],
): ClosingCredit {
  const { net, taxTotal } = documentTotals({
    currency,
    lines: standing
      .flatMap(({ lines }) => lines)
      .map(({ net: amount, taxCategory, taxRate }, index) => ({
        ...{ id: `${index}`, taxCategory, taxRate, quantity: '1' },
        unitPrice: formatAmount(minor(-amount), currency),
      })),
  });
  const gross = minor(-sumOf(standing.map((each) => each.gross)));
  return { net, tax: taxTotal, rounding: minor(gross - net - taxTotal), gross };
}
