import {
  type Currency,
  formatAmount,
  type InvoiceLine,
  minor,
  type PayerTakes,
  splitPayers,
} from '@fairlead/money';
import { type ComposedInvoice, HELD, type LineData } from './compose-invoice.ts';
import type { Payer } from './payer-facts.ts';

/** Unit of a line that takes off what another payer pays, and of a line that is a part of one on the customer's invoice. */
export const TAKEN = 'taken over';
export const PART = 'part';

export interface SharedInvoice extends ComposedInvoice {
  /** Null: the customer's. */
  payerShareId: string | null;
  /** Null: whoever pays for the aircraft. */
  contactId: string | null;
  roundingMinor: bigint;
}

/** A payer, with the lines of the whole as they would be billed to them: the same, but for tax. */
export type TaxedPayer = Payer & { taxed: readonly LineData[] };

/**
 * One invoice as one for each payer. The customer's comes first and shows every line, with what others take over taken off
 * at its end; another payer's shows their part of each line, with their own tax. Together they come to the one to the cent.
 */
export function shareOut(
  composed: ComposedInvoice,
  payers: readonly TaxedPayer[],
  currency: Currency,
): SharedInvoice[] {
  const own = { payerShareId: null, contactId: null, roundingMinor: 0n };
  if (payers.length === 0) return [{ ...composed, ...own }];
  const groups = together(composed.lines);
  // A core is the customer's, who has the old part to hand over; it is given back on their invoice.
  const split = splitPayers(
    currency,
    groups.map(({ first, net }, index) => ({
      ...{ id: `${index}`, net: minor(net) },
      ...taxOf(first),
    })),
    payers.map((payer) => ({
      ...takesOf(payer, groups),
      taxed: new Map(together(payer.taxed).map(({ first }, index) => [`${index}`, taxOf(first)])),
    })),
  );
  const takenOff: LineData[] = [];
  const others = payers.flatMap((payer, index): SharedInvoice[] => {
    const part = split.payers[index];
    if (!part || part.lines.length === 0) return [];
    const linesAmong = (of: readonly Group[]) =>
      part.lines.flatMap(({ id, net }) => {
        const group = of[Number(id)];
        return group ? partOf(group, net, currency) : [];
      });
    const lines = linesAmong(together(payer.taxed));
    // What the customer's own lines were taxed with comes off, whatever the payer is taxed with.
    takenOff.push(...takenOver(payer, linesAmong(groups), currency));
    return [
      {
        lines: placed(lines),
        ...{ netMinor: part.net, taxMinor: part.tax, grossMinor: part.gross },
        ...{ agreedMinor: composed.agreedMinor, beyondMinor: 0n, roundingMinor: 0n },
        ...{ payerShareId: payer.id, contactId: payer.contactId },
      },
    ];
  });
  const { rest } = split;
  return [
    {
      ...composed,
      ...own,
      lines: placed([...composed.lines, ...takenOff]),
      ...{ netMinor: rest.net, taxMinor: rest.tax, roundingMinor: rest.rounding },
      grossMinor: rest.gross + rest.rounding,
    },
    ...others,
  ];
}

const taxOf = ({ taxCode, taxRate }: LineData) => ({
  taxCategory: taxCode as InvoiceLine['taxCategory'],
  taxRate: String(taxRate),
});

interface Group {
  first: LineData;
  all: LineData[];
  net: bigint;
}

/** Each line with what is held back of it, which stands right below. */
function together(lines: readonly LineData[]): Group[] {
  const groups: Group[] = [];
  for (const line of lines) {
    const last = groups.at(-1);
    if (line.unit === HELD && last) {
      last.all.push(line);
      last.net += line.netMinor;
    } else groups.push({ first: line, all: [line], net: line.netMinor });
  }
  return groups;
}

function takesOf(payer: Payer, groups: readonly Group[]): PayerTakes {
  const { id, take, percent, amountMinor, deductibleMinor, items } = payer;
  const chosen = new Set(items.map(({ itemId }) => itemId));
  return {
    id,
    lines: groups.flatMap(({ first }, index) =>
      !first.core && (chosen.size === 0 || (first.itemId && chosen.has(first.itemId)))
        ? [`${index}`]
        : [],
    ),
    take:
      take === 'percent'
        ? { kind: 'percent', percent: percent?.toFixed() ?? '0' }
        : take === 'sum'
          ? { kind: 'sum', amount: minor(amountMinor ?? 0n) }
          : { kind: 'whole' },
    deductible: minor(deductibleMinor),
  };
}

/** What a payer takes of a line: the line as it is where that is all of it. */
const partOf = ({ first, all, net }: Group, part: bigint, currency: Currency): LineData[] =>
  part === net
    ? all
    : [
        {
          ...first,
          title: `${first.title}, in part`,
          lotId: null,
          ...{ quantity: '1', unit: PART, netMinor: part },
          unitPrice: formatAmount(minor(part), currency),
        },
      ];

/** On the customer's invoice: what the payer takes over, a line for each tax, of quantity −1 since a price is never negative (EN 16931, BR-27). */
function takenOver(payer: Payer, lines: readonly LineData[], currency: Currency): LineData[] {
  const byTax = new Map<string, LineData[]>();
  for (const line of lines) {
    const key = `${line.taxCode} ${line.taxRate}`;
    byTax.set(key, [...(byTax.get(key) ?? []), line]);
  }
  const name = `Paid by ${payer.contact.name}${payer.reference ? `, ${payer.reference}` : ''}`;
  return [...byTax.values()].flatMap((own) => {
    const [first] = own;
    const net = own.reduce((sum, { netMinor }) => sum + netMinor, 0n);
    if (!first || net === 0n) return [];
    return [
      {
        position: 0,
        title:
          byTax.size > 1
            ? `${name}: of what is taxed ${first.taxCode} ${Number(first.taxRate)} %`
            : name,
        category: first.category,
        ...{ quoteLineId: null, itemId: null, lotId: null },
        ...{ quantity: '-1', unit: TAKEN, netMinor: -net },
        unitPrice: formatAmount(minor(net), currency),
        ...{ taxCode: first.taxCode, taxRate: first.taxRate },
        // What is exempt stays so by the same paper: category E has one reason a document (EN 16931, BR-E-10).
        ...{ exemptionId: first.exemptionId ?? null, taxReason: first.taxReason ?? '' },
      },
    ];
  });
}

const placed = (lines: readonly LineData[]): LineData[] =>
  lines.map((line, index) => ({ ...line, position: index + 1 }));
