/** Papers that the API prints. */
type Paper =
  | 'quote'
  | 'job-card'
  | 'discrepancies'
  | 'entry'
  | 'invoice'
  | 'status'
  | 'receipt'
  | 'purchase-order';

/**
 * The address of an issued invoice as an e-invoice.
 *
 * @example eInvoiceHref('abc') // → '/paper/invoice/abc.xml'
 */
export const eInvoiceHref = (id: string): string => `/paper/invoice/${encodeURIComponent(id)}.xml`;

/**
 * The address of a paper as PDF.
 *
 * @example paperHref('entry', 'abc', 'sheet') // → '/paper/entry/abc.pdf?paper=sheet'
 */
export function paperHref(paper: Paper, id: string, on?: 'a4' | 'letter' | 'sheet'): string {
  const size = on === undefined ? '' : `?paper=${on}`;
  return `/paper/${paper}/${encodeURIComponent(id)}.pdf${size}`;
}
