import {
  documentTotals,
  formatAmount,
  type InvoiceLine,
  currency as knownCurrency,
  minor,
  taxCategories,
} from '@fairlead/money';
import { type Cell, dayCell, numberCell, textCell } from '../../csv.ts';
import { owedOf, paidOf } from '../owed.ts';
import type { BookedInvoice, BookedMoney } from './read-booked.ts';

export const amount = (value: bigint, code: string): Cell =>
  numberCell(formatAmount(minor(value), knownCurrency(code)));

export const tableNames = ['invoices', 'lines', 'tax', 'payments'] as const;
export type TableName = (typeof tableNames)[number];

export const heads: Record<TableName, readonly string[]> = {
  invoices: [
    ...['number', 'kind', 'issued_on', 'due_on', 'payer', 'country', 'aircraft', 'order'],
    ...['currency', 'net', 'tax', 'rounding', 'gross', 'paid', 'owed', 'takes_back'],
  ],
  lines: [
    ...['number', 'kind', 'issued_on', 'position', 'what', 'category', 'quantity', 'unit'],
    ...['unit_price', 'currency', 'net', 'tax_category', 'tax_rate'],
  ],
  tax: ['number', 'kind', 'issued_on', 'tax_category', 'tax_rate', 'currency', 'base', 'tax'],
  payments: [
    ...['on', 'kind', 'document', 'payer', 'method', 'currency', 'received', 'set_against'],
  ],
};

const kindOf = ({ creditsId }: BookedInvoice) => (creditsId === null ? 'invoice' : 'credit note');
const head = (invoice: BookedInvoice): Cell[] => [
  numberCell(`${invoice.number}`),
  textCell(kindOf(invoice)),
  dayCell(invoice.issuedOn),
];

export function invoiceRow(invoice: BookedInvoice): Cell[] {
  const { currency, contact, order } = invoice;
  return [
    ...head(invoice),
    dayCell(invoice.dueOn),
    textCell(contact.name),
    textCell(contact.country),
    textCell(order.aircraft.registration),
    numberCell(`${order.number}`),
    textCell(currency),
    amount(invoice.netMinor, currency),
    amount(invoice.taxMinor, currency),
    amount(invoice.roundingMinor, currency),
    amount(invoice.grossMinor, currency),
    amount(paidOf(invoice), currency),
    amount(owedOf(invoice), currency),
    invoice.credits === null ? null : numberCell(`${invoice.credits.number}`),
  ];
}

export const lineRows = (invoice: BookedInvoice): Cell[][] =>
  invoice.lines.map((line) => [
    ...head(invoice),
    numberCell(`${line.position}`),
    textCell(line.title),
    textCell(line.category),
    numberCell(line.quantity.toFixed()),
    textCell(line.unit),
    numberCell(line.unitPrice.toFixed()),
    textCell(invoice.currency),
    amount(line.netMinor, invoice.currency),
    textCell(line.taxCode),
    numberCell(line.taxRate.toFixed()),
  ]);

/**
 * Tax by category and rate, each rounded once (EN 16931, BR-CO-17). Where that does not come to the invoice's own tax, which
 * cannot be while both follow the same rule, one row says the whole and names no category.
 */
export function taxRows(invoice: BookedInvoice): Cell[][] {
  const { currency: code, lines } = invoice;
  const currency = knownCurrency(code);
  const { tax, taxTotal } = documentTotals({
    currency,
    lines: lines.map(({ id, netMinor, taxCode, taxRate }) => ({
      id,
      // A line's net is a fact already; it is handed on as one piece at that price.
      quantity: netMinor < 0n ? '-1' : '1',
      unitPrice: formatAmount(minor(netMinor < 0n ? -netMinor : netMinor), currency),
      taxCategory: (taxCategories.find((each) => each === taxCode) ??
        'S') as InvoiceLine['taxCategory'],
      taxRate: taxRate.toFixed(),
    })),
  });
  if (taxTotal !== invoice.taxMinor)
    return [
      [
        ...head(invoice),
        ...[null, null, textCell(code)],
        amount(invoice.netMinor, code),
        amount(invoice.taxMinor, code),
      ],
    ];
  return tax.map((share) => [
    ...head(invoice),
    textCell(share.category),
    numberCell(share.rate),
    textCell(code),
    amount(share.base, code),
    amount(share.amount, code),
  ]);
}

/** `received` adds up to the money that came in, less what went out; what was set from a deposit came in before, and is beside it. */
export const moneyRow = (money: BookedMoney): Cell[] => [
  dayCell(money.on),
  textCell(money.kind),
  textCell(money.document),
  textCell(money.payer),
  textCell(money.method),
  textCell(money.currency),
  amount(money.received, money.currency),
  amount(money.setAgainst, money.currency),
];
