import {
  documentTotals,
  formatAmount,
  currency as knownCurrency,
  minor,
  taxCategories,
} from '@fairlead/money';
import { addingSteps, type ChainStep } from '../../components/ChainDimension.tsx';
import { groupThousands, minus } from '../../lib/figures/hours.ts';
import type { Invoice } from './invoice-documents.ts';

type Line = Invoice['lines'][number];
type Kind = Invoice['difference'][number]['kind'];

/**
 * An exact decimal as figures, with at least so many places.
 *
 * @example decimalText('1092.5', 2) // → '1,092.50'
 * @example decimalText('0.1234', 2) // → '0.1234'
 */
export function decimalText(text: string, least: number): string {
  const [whole = '0', fraction = ''] = text.replace('-', '').split('.');
  const kept = fraction.replace(/0+$/, '').padEnd(least, '0');
  const figures = groupThousands(kept === '' ? whole : `${whole}.${kept}`);
  return text.startsWith('-') ? minus + figures : figures;
}

/** How much of a line: hours in tenths with their unit, pieces as they are, a flat price as a word. */
export function quantityWords({ quantity, unit }: Pick<Line, 'quantity' | 'unit'>): string {
  if (unit === 'hour') return `${decimalText(quantity, 1)} h`;
  if (unit === 'each') return decimalText(quantity, 0);
  return unit === 'job' ? 'flat price' : unit;
}

interface TaxPart {
  code: string;
  rate: string;
  base: bigint;
  amount: bigint;
}

/**
 * The tax by category and rate, each rounded once (EN 16931, BR-CO-17). Null where that does not
 * come to the tax that the invoice carries: then only its own total is shown.
 *
 * @example taxByCategory({ currency: 'USD', tax: '400', lines: [{ id: '1', net: '10000', taxCode: 'S', taxRate: '4' }] }) // → [{ code: 'S', rate: '4', base: 10000n, amount: 400n }]
 */
export function taxByCategory({
  currency,
  tax,
  lines,
}: {
  currency: string;
  tax: string;
  lines: readonly Pick<Line, 'id' | 'net' | 'taxCode' | 'taxRate'>[];
}): TaxPart[] | null {
  const code = knownCurrency(currency);
  const known = lines.flatMap((line) => {
    const taxCode = taxCategories.find((category) => category === line.taxCode);
    return taxCode === undefined ? [] : [{ ...line, taxCode }];
  });
  const { tax: shares, taxTotal } = documentTotals({
    currency: code,
    lines: known.map(({ id, net, taxCode, taxRate }) => ({
      id,
      // A line's net is a fact already; it is handed on as one piece at that price.
      quantity: BigInt(net) < 0n ? '-1' : '1',
      unitPrice: formatAmount(minor(BigInt(net) < 0n ? -BigInt(net) : BigInt(net)), code),
      taxCategory: taxCode,
      taxRate,
    })),
  });
  if (taxTotal !== BigInt(tax)) return null;
  return shares.map(({ category, rate, base, amount }) => ({ code: category, rate, base, amount }));
}

const kinds: Record<Kind, string> = {
  whole: 'lines one by one, against the likely sum of the whole',
  scope_added: 'added with the owner’s agreement',
  labour: 'more and less labour than was likely',
  parts: 'more and fewer parts, or at another price',
  not_quoted: 'not in the quote',
  our_cost: 'at our own cost',
  taken_over: 'paid by others',
  held_back: 'past what was agreed, not billed',
};

interface Difference {
  /** One step for each line. */
  steps: ChainStep[];
  /** One step for each reason; the same as `steps` where there are few. */
  byReason: ChainStep[];
  /** Whether the last step ends at what is billed, to the cent. */
  closes: boolean;
}

const FEW = 8;

/** From what was quoted to what is billed, net. Null for a credit note, which nobody quoted. */
export function differenceOf({
  quoted,
  net,
  currency,
  difference,
}: Pick<Invoice, 'quoted' | 'net' | 'currency' | 'difference'>): Difference | null {
  if (quoted === null) return null;
  const changes = difference.map(({ title, amount }) => ({ words: title, change: BigInt(amount) }));
  const steps = addingSteps('quoted', BigInt(quoted), changes, currency);
  const reasons = (Object.keys(kinds) as Kind[]).flatMap((kind) => {
    const own = difference.filter((step) => step.kind === kind);
    const change = own.reduce((sum, { amount }) => sum + BigInt(amount), 0n);
    return own.length === 0 ? [] : [{ words: kinds[kind], change }];
  });
  return {
    steps,
    byReason:
      steps.length <= FEW ? steps : addingSteps('quoted', BigInt(quoted), reasons, currency),
    closes: steps.at(-1)?.value === BigInt(net),
  };
}

/**
 * What a person typed as an amount, in minor units as text; null where it is not one.
 *
 * @example typedAmount('1,240.5', 'USD') // → '124050'
 * @example typedAmount('12.345', 'USD') // → null
 */
export function typedAmount(typed: string, code: string): string | null {
  const plain = typed.trim().replaceAll(',', '');
  const places = formatAmount(minor(0n), knownCurrency(code)).split('.')[1]?.length ?? 0;
  const read = /^(\d{1,12})(?:\.(\d*))?$/.exec(plain);
  if (read === null || (read[2] ?? '').length > places) return null;
  return BigInt(`${read[1]}${(read[2] ?? '').padEnd(places, '0')}`).toString();
}

/**
 * How a line was reckoned, and why it is not taxed, where there is something to say; else nothing.
 *
 * @example notesOf({ note: '', taxReason: 'Public authority' }) // → 'Exempt from tax: Public authority.'
 */
export const notesOf = ({ note, taxReason }: { note: string; taxReason: string }): string =>
  [note && `${note}.`, taxReason && `Exempt from tax: ${taxReason}.`].filter(Boolean).join(' ');
