import {
  documentTotals,
  formatAmount,
  currency as knownCurrency,
  minor,
  taxCategories,
} from '@fairlead/money';
import { decimalText, moneyText } from './figures.ts';
import type { Row } from './table.ts';

export interface InvoiceLine {
  id: string;
  position: number;
  title: string;
  quantity: string;
  unit: string;
  unitPrice: string;
  net: string;
  taxCode: string;
  taxRate: string;
  taxReason: string;
  note: string;
}

export interface Amounts {
  currency: string;
  net: string;
  tax: string;
  gross: string;
  rounding: string;
  lines: InvoiceLine[];
}

export interface Step {
  kind: keyof typeof reasons;
  title: string;
  amount: string;
}

const taxWords = (code: string, rate: string) => `${code} ${decimalText(rate, 0)} %`;

function quantityWords({ quantity, unit }: InvoiceLine): string {
  if (unit === 'hour') return `${decimalText(quantity, 1)} h`;
  if (unit === 'each') return decimalText(quantity, 0);
  return unit === 'job' ? 'flat price' : unit;
}

/** What is billed: balloon, what, quantity, each, tax, net; then the sums. */
export function invoiceRows(invoice: Amounts): Row[] {
  const { currency, lines, net, gross, rounding } = invoice;
  return [
    ...lines.map(
      (line): Row => ({
        cells: [
          { balloon: line.position },
          line.note === '' ? line.title : { text: line.title, note: line.note },
          quantityWords(line),
          line.unit === 'job' ? '' : decimalText(line.unitPrice, 2),
          taxWords(line.taxCode, line.taxRate),
          moneyText(BigInt(line.net), currency),
        ],
      }),
    ),
    { cells: ['', 'Net', '', '', '', moneyText(BigInt(net), currency)], outline: true },
    ...taxRows(invoice),
    ...(rounding === '0'
      ? []
      : [
          {
            cells: [
              ...['', 'Rounding between the payers', '', '', ''],
              moneyText(BigInt(rounding), currency),
            ],
          },
        ]),
    { cells: ['', 'With tax', '', '', '', moneyText(BigInt(gross), currency)], bold: true },
  ];
}

/** Tax by category and rate, each rounded once (EN 16931, BR-CO-17); only its total where that does not come to it. */
function taxRows({ currency, tax, lines }: Amounts): Row[] {
  const code = knownCurrency(currency);
  const { tax: shares, taxTotal } = documentTotals({
    currency: code,
    lines: lines.flatMap(({ id, net, taxCode, taxRate }) => {
      const taxCategory = taxCategories.find((category) => category === taxCode);
      const size = BigInt(net) < 0n ? -BigInt(net) : BigInt(net);
      return taxCategory === undefined
        ? []
        : [
            {
              id,
              // A line's net is a fact already; it is handed on as one piece at that price.
              quantity: BigInt(net) < 0n ? '-1' : '1',
              unitPrice: formatAmount(minor(size), code),
              taxCategory,
              taxRate,
            },
          ];
    }),
  });
  if (taxTotal !== BigInt(tax))
    return [{ cells: ['', 'Tax', '', '', '', moneyText(BigInt(tax), currency)] }];
  return shares.map(({ category, rate, base, amount }) => ({
    cells: [
      '',
      `Tax on ${moneyText(base, currency)}`,
      '',
      '',
      taxWords(category, rate),
      moneyText(amount, currency),
    ],
  }));
}

/** Why lines of category E are not taxed, each reason once with its lines (BT-120). */
export function exemptWords(lines: readonly InvoiceLine[]): string[] {
  const reasons = [...new Set(lines.map(({ taxReason }) => taxReason))].filter(Boolean);
  return reasons.map((reason) => {
    const positions = lines.flatMap((line) => (line.taxReason === reason ? [line.position] : []));
    return `Exempt from tax, ${positions.length === 1 ? 'line' : 'lines'} ${positions.join(', ')}: ${reason}`;
  });
}

const reasons = {
  whole: 'lines one by one, against the likely sum of the whole',
  scope_added: 'added with the owner’s agreement',
  labour: 'more and less labour than was likely',
  parts: 'more and fewer parts, or at another price',
  not_quoted: 'not in the quote',
  our_cost: 'at our own cost',
  taken_over: 'paid by others',
  held_back: 'past what was agreed, not billed',
};

/** Steps of a chain that are shown one by one; more are summed by their reason. */
const FEW = 8;

export interface Chain {
  links: { words: string; change: bigint; value: bigint }[];
  /** Whether it ends at what is billed, to the cent. */
  closes: boolean;
}

/** From what was quoted to what is billed, net. Null for a credit note, which nobody quoted. */
export function chainOf({
  quoted,
  net,
  difference,
}: {
  quoted: string | null;
  net: string;
  difference: readonly Step[];
}): Chain | null {
  if (quoted === null) return null;
  const each = difference.map(({ title, amount }) => ({ words: title, change: BigInt(amount) }));
  const byReason = (Object.keys(reasons) as Step['kind'][]).flatMap((kind) => {
    const own = difference.filter((step) => step.kind === kind);
    const change = own.reduce((sum, { amount }) => sum + BigInt(amount), 0n);
    return own.length === 0 ? [] : [{ words: reasons[kind], change }];
  });
  let value = BigInt(quoted);
  const links = (each.length < FEW ? each : byReason).map(({ words, change }) => {
    value += change;
    return { words, change, value };
  });
  return { links, closes: value === BigInt(net) };
}
