import { discrepanciesPaper } from './discrepancies.ts';
import type { PaperKind } from './document.ts';
import { entryPaper } from './entry.ts';
import { invoicePaper } from './invoice.ts';
import { jobCardPaper } from './job-card.ts';
import { purchaseOrderPaper } from './purchase-order.ts';
import { quotePaper } from './quote.ts';
import { receiptPaper } from './receipt.ts';
import { statementPaper } from './statement.ts';
import { statusPaper } from './status.ts';

/** Every kind of paper, by the name in its address. */
export const kinds: Record<string, PaperKind> = {
  quote: quotePaper,
  'job-card': jobCardPaper,
  discrepancies: discrepanciesPaper,
  entry: entryPaper,
  invoice: invoicePaper,
  status: statusPaper,
  statement: statementPaper,
  receipt: receiptPaper,
  'purchase-order': purchaseOrderPaper,
};

/** A name that every system can keep: letters, digits and hyphens. */
export const plainName = (name: string) =>
  name
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9-]+/g, '-')
    .replace(/-{2,}/g, '-')
    .slice(0, 100);
