/** What the owner's page shows of an invoice. */
export { differenceFacts, differenceOf, quotedOf } from './difference.ts';
export { eInvoice } from './e-invoice.ts';
export { owedFacts, owedOf, paidOf } from './owed.ts';
