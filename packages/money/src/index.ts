export {
  type AgeClass,
  type Ages,
  ageClass,
  ageClasses,
  ageing,
  type OpenAmount,
} from './ageing.ts';
export { allocate } from './allocate.ts';
export {
  formatAmount,
  formatMoney,
  type Minor,
  type Money,
  minor,
  money,
  nothing,
  sumOf,
  sumOfMoney,
} from './amount.ts';
export { type Authorisation, agreed, type PartedAmount, withinAgreed } from './authority.ts';
export {
  type BilledTime,
  type BilledTimeRule,
  billedHours,
  billedHoursOf,
  billedTime,
  secondsFrom,
} from './billed-hours.ts';
export { markedUp, suppliesFor } from './charges.ts';
export { type ClosingCredit, closingCredit, type StandingDocument } from './closing-credit.ts';
export { type CoreBilled, type CoreCredit, coreCredit } from './core-credit.ts';
export { type CoreFacts, type CoreOwed, coreOwed } from './core-owed.ts';
export { type Currency, currency, isCurrency, minorUnits } from './currency.ts';
export { type DepositAccount, depositLeft, setDeposits } from './deposit.ts';
export {
  type DocumentAdjustment,
  type DocumentLine,
  type DocumentTotals,
  documentTotals,
  type PricedDocument,
  type TaxCategory,
  type Taxed,
  type TaxShare,
  taxCategories,
} from './document-totals.ts';
export type { DifferenceStep } from './explained-difference.ts';
export { type BillableWork, type ComposedInvoice, invoiceLines } from './invoice-lines.ts';
export { type Adjustment, lineNet, type PricedLine } from './line-net.ts';
export { type MarkUpBand, markedUpUnit, markUpBand } from './mark-up.ts';
export { type OverrunRule, overrunAllowed } from './overrun.ts';
export { parseAmount } from './read-amount.ts';
export { readDocument } from './read-document.ts';
export {
  type LineToSplit,
  type PayerTakes,
  type SplitBill,
  splitPayers,
} from './split-payers.ts';
export {
  type AccountEntry,
  type StatedEntry,
  type Statement,
  statement,
} from './statement.ts';
export { type StorageRule, storageFor } from './storage.ts';
export type { Unbilled } from './unbilled.ts';
export type {
  AgreedLine,
  ClockedStretch,
  InvoiceLine,
  IssuedPart,
  LineOrigin,
} from './worked-line.ts';
