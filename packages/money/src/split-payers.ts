import { allocate } from './allocate.ts';
import { formatAmount, type Minor, minor, nothing, sumOf } from './amount.ts';
import { type Currency, currency as knownCurrency, minorUnits } from './currency.ts';
import { documentTotals, type Taxed } from './document-totals.ts';
import { exact } from './exact.ts';
import { roundToMinor } from './read-amount.ts';

/** A line of a bill, with what is held back of it already taken off. */
export interface LineToSplit extends Taxed {
  readonly id: string;
  /** Before tax, 0 or more. */
  readonly net: Minor;
}

/** What somebody besides the customer pays of a bill: a warranty giver, an insurer. */
export interface PayerTakes {
  readonly id: string;
  /** Of these lines; null: of all. */
  readonly lines: readonly string[] | null;
  /** All of it, a share of it in per cent, or a sum, before tax. */
  readonly take:
    | { readonly kind: 'whole' }
    | { readonly kind: 'percent'; readonly percent: string }
    | { readonly kind: 'sum'; readonly amount: Minor };
  /** What of that stays with the customer, before tax. */
  readonly deductible: Minor;
  /** How they are taxed on a line, by its id, where that is not as the line says: an exemption is somebody's own. */
  readonly taxed?: ReadonlyMap<string, Taxed>;
}

export interface Totals {
  readonly net: Minor;
  readonly tax: Minor;
  readonly gross: Minor;
}

export interface SplitBill {
  /** Of each payer, in the order given, what they take of each line; lines of nothing are left out. */
  readonly payers: readonly (Totals & {
    readonly id: string;
    readonly lines: readonly { readonly id: string; readonly net: Minor }[];
  })[];
  /** What the customer is left with; with `rounding`, what all owe together is what one bill would come to. */
  readonly rest: Totals & {
    readonly lines: readonly { readonly id: string; readonly net: Minor }[];
    readonly rounding: Minor;
  };
  readonly whole: Totals;
}

/**
 * Shares one bill out among those who pay it.
 *
 * Method: payers take in the order given, each of what is left of their lines: all of it, a per cent of what the lines came
 * to at first (rounded half away from zero), or a sum; never more than is left. The deductible comes off that and stays with
 * the customer. What a payer takes of several lines is shared out by the largest remainder, so that each line's parts add
 * to the line exactly. Each payer's tax is that of their own lines, each taxed as they are, rounded once for each category and rate (EN 16931,
 * BR-CO-17). The whole is all parts on one bill, each with its payer's tax. Taxes rounded apart may add to some minor units more or less than tax rounded once: the customer's bill carries
 * that difference as its rounding amount (BT-114, BR-CO-16), so that all sums due add to the whole exactly.
 *
 * That a deductible is net, and that payers take in turn, is common practice, no source.
 *
 * @throws RangeError for a line below 0, two lines or payers with one id, an unknown line, a per cent outside of 0 to 100, a
 *   sum or deductible below 0, or what `documentTotals` throws.
 * @example splitPayers('USD', [{ id: 'a', net: minor(10001n), taxCategory: 'S', taxRate: '7' }], [{ id: 'insurer', lines: null, take: { kind: 'percent', percent: '50' }, deductible: minor(1000n) }]).payers[0].net // → 4001n
 */
export function splitPayers(
  code: Currency,
  lines: readonly LineToSplit[],
  takes: readonly PayerTakes[],
): SplitBill {
  const currency = knownCurrency(code);
  refuseUnusable(lines, takes);
  const left = new Map<string, bigint>(lines.map(({ id, net }) => [id, net]));
  const asSaid = new Map(lines.map((line) => [line.id, line]));
  const every: TaxedPart[] = [];
  const totals = (parts: readonly Part[], taxed?: ReadonlyMap<string, Taxed>) => {
    const own = parts.map(({ id, net }) => {
      const { taxCategory, taxRate } = taxed?.get(id) ?? asSaid.get(id)!;
      return { net, taxCategory, taxRate };
    });
    every.push(...own);
    return totalsOf(currency, own);
  };
  const payers = takes.map((payer) => {
    const own = lines.filter(({ id }) => payer.lines === null || payer.lines.includes(id));
    const parts = takeOf(payer, own, left, currency);
    for (const { id, net } of parts) left.set(id, (left.get(id) ?? 0n) - net);
    return { id: payer.id, lines: parts, ...totals(parts, payer.taxed) };
  });
  const remaining = lines.map(({ id }) => ({ id, net: minor(left.get(id) ?? 0n) }));
  const rest = totals(remaining);
  const whole = totalsOf(currency, every);
  const rounding = minor(whole.gross - sumOf([rest, ...payers].map(({ gross }) => gross)));
  return { payers, rest: { ...rest, lines: remaining, rounding }, whole };
}

type Part = { readonly id: string; readonly net: Minor };
type TaxedPart = Taxed & { readonly net: Minor };

function takeOf(
  { take, deductible }: PayerTakes,
  own: readonly LineToSplit[],
  left: ReadonlyMap<string, bigint>,
  currency: Currency,
): { id: string; net: Minor }[] {
  const open = own.map(({ id }) => left.get(id) ?? 0n);
  const most = open.reduce((sum, net) => sum + net, 0n);
  const asked =
    take.kind === 'whole'
      ? most
      : take.kind === 'sum'
        ? take.amount
        : partOf(own, take.percent, currency);
  const after = (asked < most ? asked : most) - deductible;
  if (after <= 0n) return [];
  const shares = allocate(minor(after), open.map(String));
  return own.flatMap(({ id }, index) => {
    const net = shares[index] ?? nothing;
    return net > 0n ? [{ id, net }] : [];
  });
}

const partOf = (own: readonly LineToSplit[], percent: string, currency: Currency): bigint =>
  roundToMinor(
    exact(percent, 'percent')
      .mul(sumOf(own.map(({ net }) => net)).toString())
      .div(10 ** (minorUnits[currency] + 2)),
    currency,
  );

function totalsOf(currency: Currency, parts: readonly TaxedPart[]): Totals {
  const { net, taxTotal, gross } = documentTotals({
    currency,
    lines: parts.map(({ net: amount, taxCategory, taxRate }, index) => ({
      ...{ id: `${index}`, taxCategory, taxRate, quantity: '1' },
      unitPrice: formatAmount(amount, currency),
    })),
  });
  return { net, tax: taxTotal, gross };
}

function refuseUnusable(lines: readonly LineToSplit[], takes: readonly PayerTakes[]): void {
  const known = new Set<string>();
  for (const { id, net } of lines) {
    if (known.has(id))
      throw new RangeError(`Cannot split two lines with the id ${id}: give each its own`);
    if (net < 0n) throw new RangeError(`Cannot split line ${id} of ${net}: give 0 or more`);
    known.add(id);
  }
  const payers = new Set<string>();
  for (const { id, lines: own, take, deductible } of takes) {
    if (payers.has(id))
      throw new RangeError(`Cannot split among two payers with the id ${id}: give each its own`);
    payers.add(id);
    const unknown = own?.find((line) => !known.has(line));
    if (unknown !== undefined)
      throw new RangeError(`Cannot give payer ${id} the line ${unknown}: there is none`);
    if (deductible < 0n)
      throw new RangeError(`Cannot deduct ${deductible} for payer ${id}: give 0 or more`);
    if (take.kind === 'sum' && take.amount < 0n)
      throw new RangeError(`Cannot give payer ${id} a sum of ${take.amount}: give 0 or more`);
    if (take.kind === 'percent') {
      const percent = exact(take.percent, 'percent');
      if (percent.lt(0) || percent.gt(100))
        throw new RangeError(`Cannot give payer ${id} ${take.percent} per cent: give 0 to 100`);
    }
  }
}
