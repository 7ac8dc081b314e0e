import { type Minor, minor, nothing, sumOf } from './amount.ts';
import { type Currency, currency as knownCurrency, minorUnits } from './currency.ts';
import { exact } from './exact.ts';
import { type Adjustment, lineNet, type PricedLine } from './line-net.ts';
import { parseAmount, roundToMinor } from './read-amount.ts';

/**
 * Categories of tax by UNCL 5305, as EN 16931 uses them: S standard or reduced rate, Z zero rate,
 * E exempt, AE reverse charge, K within the European Community, G export, O outside the scope,
 * L and M local taxes. A shop's own sales tax on parts, labour and supplies is S with its rate.
 */
export const taxCategories = ['AE', 'E', 'G', 'K', 'L', 'M', 'O', 'S', 'Z'] as const;
export type TaxCategory = (typeof taxCategories)[number];

/** Which tax applies: a category and its rate in per cent, as text ("7.25"). */
export interface Taxed {
  readonly taxCategory: TaxCategory;
  readonly taxRate: string;
}

export interface DocumentLine extends PricedLine, Taxed {
  readonly id: string;
}

export interface DocumentAdjustment extends Adjustment, Taxed {}

/** A quote or invoice before its totals are known. */
export interface PricedDocument {
  readonly currency: Currency;
  readonly lines: readonly DocumentLine[];
  readonly allowances?: readonly DocumentAdjustment[];
  readonly charges?: readonly DocumentAdjustment[];
  /** Already paid (BT-113), a plain decimal. */
  readonly paid?: string;
  /** What is added to round what is due (BT-114), a plain decimal. */
  readonly rounding?: string;
}

export interface TaxShare {
  readonly category: TaxCategory;
  /** Per cent without trailing zeros, so that 25 and 25.00 are one rate. */
  readonly rate: string;
  readonly base: Minor;
  readonly amount: Minor;
}

/** All figures of a document, in minor units of its currency. */
export interface DocumentTotals {
  readonly currency: Currency;
  readonly lines: readonly { readonly id: string; readonly net: Minor }[];
  readonly lineSum: Minor;
  readonly allowances: Minor;
  readonly charges: Minor;
  readonly net: Minor;
  /** By category, then by rate. */
  readonly tax: readonly TaxShare[];
  readonly taxTotal: Minor;
  readonly gross: Minor;
  readonly due: Minor;
}

/**
 * The totals of a quote or an invoice.
 *
 * Formula, EN 16931-1: line sum = Σ line nets (BR-CO-10); allowances and charges are their sums
 * (BR-CO-11, BR-CO-12); net = line sum − allowances + charges (BR-CO-13); tax of a category and rate
 * = base × rate ÷ 100, rounded half away from zero to minor units (BR-CO-17); tax total = their sum
 * (BR-CO-14); gross = net + tax total (BR-CO-15); due = gross − paid + rounding (BR-CO-16).
 *
 * @throws RangeError for an unknown currency or category, a negative rate, a rate other than 0 where
 *   the category has none (BR-E-05 and its like), two lines with one id, or what `lineNet` throws.
 * @example documentTotals({ currency: 'DKK', lines: [{ id: '1', quantity: '1', unitPrice: '-625743.54', taxCategory: 'S', taxRate: '25' }] }).taxTotal // → -15643589n
 */
export function documentTotals(document: PricedDocument): DocumentTotals {
  const currency = knownCurrency(document.currency);
  const lines = document.lines.map((line) => ({ id: line.id, net: lineNet(line, currency) }));
  const seen = new Set<string>();
  for (const { id } of lines) {
    if (seen.has(id)) {
      throw new RangeError(`Cannot total two lines with the id ${id}: give each its own`);
    }
    seen.add(id);
  }
  const allowances = amountsOf(document.allowances, currency);
  const charges = amountsOf(document.charges, currency);
  const tax = taxShares(currency, [
    ...document.lines.map((line, index) => ({
      ...taxOf(line),
      base: lines[index]?.net ?? nothing,
    })),
    ...allowances.map(({ taxed, amount }) => ({ ...taxed, base: minor(-amount) })),
    ...charges.map(({ taxed, amount }) => ({ ...taxed, base: amount })),
  ]);

  const lineSum = sumOf(lines.map(({ net }) => net));
  const allowanceSum = sumOf(allowances.map(({ amount }) => amount));
  const chargeSum = sumOf(charges.map(({ amount }) => amount));
  const net = minor(lineSum - allowanceSum + chargeSum);
  const taxTotal = sumOf(tax.map(({ amount }) => amount));
  const gross = minor(net + taxTotal);
  const paid = parseAmount(document.paid ?? '0', currency, 'paid');
  const rounding = parseAmount(document.rounding ?? '0', currency, 'rounding');
  const due = minor(gross - paid + rounding);
  return {
    currency,
    lines,
    lineSum,
    allowances: allowanceSum,
    charges: chargeSum,
    net,
    tax,
    taxTotal,
    gross,
    due,
  };
}

interface TaxBase {
  readonly category: TaxCategory;
  readonly rate: string;
  readonly base: Minor;
}

function amountsOf(
  adjustments: readonly DocumentAdjustment[] | undefined,
  currency: Currency,
): { taxed: Omit<TaxBase, 'base'>; amount: Minor }[] {
  return (adjustments ?? []).map((adjustment) => ({
    taxed: taxOf(adjustment),
    amount: parseAmount(adjustment.amount, currency, 'allowance or charge'),
  }));
}

const RATED: readonly TaxCategory[] = ['S', 'L', 'M'];

function taxOf({ taxCategory, taxRate }: Taxed): Omit<TaxBase, 'base'> {
  if (!taxCategories.includes(taxCategory)) {
    throw new RangeError(
      `Cannot tax category ${JSON.stringify(taxCategory)}: give one of ${taxCategories.join(', ')}`,
    );
  }
  const rate = exact(taxRate, 'tax rate');
  if (rate.lt(0)) {
    throw new RangeError(`Cannot tax at ${taxRate} %: give a rate of 0 or more`);
  }
  if (!rate.isZero() && !RATED.includes(taxCategory)) {
    throw new RangeError(
      `Cannot tax category ${taxCategory} at ${taxRate} %: its rate is 0; category S carries a rate`,
    );
  }
  return { category: taxCategory, rate: rate.toFixed() };
}

function taxShares(currency: Currency, bases: readonly TaxBase[]): TaxShare[] {
  const groups = new Map<string, TaxBase>();
  for (const { category, rate, base } of bases) {
    const key = `${category} ${rate}`;
    const before = groups.get(key)?.base ?? nothing;
    groups.set(key, { category, rate, base: minor(before + base) });
  }
  return [...groups.values()]
    .map((group) => ({ ...group, amount: taxOn(group.base, group.rate, currency) }))
    .sort((a, b) =>
      a.category === b.category
        ? exact(a.rate).cmp(exact(b.rate))
        : a.category < b.category
          ? -1
          : 1,
    );
}

/** base × rate ÷ 100: exact up to the one rounding, for any amount a document can hold. */
function taxOn(base: Minor, rate: string, currency: Currency): Minor {
  const major = exact(rate)
    .mul(base.toString())
    .div(10 ** (minorUnits[currency] + 2));
  return roundToMinor(major, currency);
}
