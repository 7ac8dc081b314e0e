import { formatAmount, minor, nothing } from '../amount.ts';
import { type Currency, currency } from '../currency.ts';
import { type DocumentTotals, documentTotals, type TaxCategory } from '../document-totals.ts';
import type { IssuedDocument } from './issued-document.ts';

/** Tax categories that are written: standard, zero rate, exempt. */
const written: readonly string[] = ['S', 'Z', 'E'] satisfies TaxCategory[];
export const isWritten = (category: string): category is 'S' | 'Z' | 'E' =>
  written.includes(category);

/**
 * Figures of a document as an e-invoice counts them: type 381 takes back what is positive on it, while the books keep
 * a credit note below zero.
 */
export function counted(document: IssuedDocument): IssuedDocument {
  if (document.credits === null) return document;
  const { net, tax, gross, rounding, lines } = document;
  return {
    ...document,
    net: minor(-net),
    tax: minor(-tax),
    gross: minor(-gross),
    ...(rounding !== undefined && { rounding: minor(-rounding) }),
    lines: lines.map((line) => ({
      ...line,
      quantity: turned(line.quantity),
      net: minor(-line.net),
    })),
  };
}

/** The other sign, in text, so that no figure passes through a float. */
const turned = (quantity: string) =>
  quantity.startsWith('-')
    ? quantity.slice(1)
    : /^[0.]*$/.test(quantity)
      ? quantity
      : `-${quantity}`;

/** The totals as the invoice itself was totalled: each line one piece at its net amount, which is rounded already. */
export function totalsOf(document: IssuedDocument): DocumentTotals {
  const code: Currency = currency(document.currency);
  return documentTotals({
    currency: code,
    lines: document.lines.map((line) => ({
      id: `${line.position}`,
      quantity: '1',
      unitPrice: formatAmount(line.net, code),
      taxCategory: line.taxCategory as TaxCategory,
      taxRate: line.taxRate,
    })),
    paid: formatAmount(document.paid, code),
    rounding: formatAmount(document.rounding ?? nothing, code),
  });
}
