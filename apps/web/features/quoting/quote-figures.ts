import type { ChainStep } from '../../components/ChainDimension.tsx';
import type { Estimate } from '../../components/Dimension.tsx';
import { groupThousands } from '../../lib/figures/hours.ts';

/** A reason behind hours, as the API gives it. */
interface Reason {
  kind: string;
  sentence: string;
  hours?: number | null | undefined;
  factor?: number | null | undefined;
}

interface Hours {
  p10: number;
  p50: number;
  p80: number;
  p90: number;
}

/** A line of a quote, forecast or kept, as the sheet shows it. Amounts in minor units. */
export interface LineView {
  key: string;
  title: string;
  /** Firm and free of a task: the price of a whole package. */
  kind: 'flat' | 'under_flat' | 'task' | 'part' | 'charge';
  pricing: string;
  /** Not to be exceeded; null where nothing is said of that. */
  limit: bigint | null;
  jasc: string | null;
  /** For a part: how many of what at how much. */
  note: string | null;
  /** By which rate, price, band or rule it was priced, and why it is not taxed; null: nothing is said of that. */
  pricedBy: string | null;
  amounts: { low: bigint; likely: bigint; p80: bigint; high: bigint };
  hours: Hours | null;
  because: readonly Reason[];
}

interface ApiLine {
  position: number;
  pricing: string;
  title: string;
  quantity: string;
  unitPrice: string;
  low: string;
  likely: string;
  p80: string;
  high: string;
  limit?: string | null | undefined;
  charge?: string | null | undefined;
  pricedBy?: string | null | undefined;
  taxReason?: string | undefined;
  hours?: Hours | null | undefined;
  because: readonly Reason[];
}

interface Behind {
  jasc: string | null;
  part: { number: string; unit: string } | null;
}

/**
 * The price of one, with all its decimals and at least two.
 *
 * @example unitPriceText('1180') // → '1,180.00'
 */
export function unitPriceText(price: string): string {
  const [whole = '', decimals = ''] = price.split('.');
  return `${groupThousands(whole)}.${decimals.padEnd(2, '0')}`;
}

/** A line as the API gives it, with what is known of the task or part behind it. */
export function lineView(line: ApiLine, { jasc, part }: Behind): LineView {
  const fixed = line.pricing === 'fixed';
  // What is under a flat price has none of its own.
  const isUnder = fixed && jasc !== null && BigInt(line.likely) === 0n;
  const kind =
    part !== null
      ? 'part'
      : line.charge != null
        ? 'charge'
        : isUnder
          ? 'under_flat'
          : fixed && jasc === null
            ? 'flat'
            : 'task';
  return {
    key: `${line.position}`,
    title: line.title,
    kind,
    pricing: line.pricing,
    limit: line.limit == null ? null : BigInt(line.limit),
    jasc,
    note:
      part === null
        ? null
        : `${part.number} · ${line.quantity} ${part.unit} at ${unitPriceText(line.unitPrice)}`,
    pricedBy:
      [line.pricedBy, line.taxReason ? `Exempt from tax: ${line.taxReason}.` : null]
        .filter(Boolean)
        .join(' ') || null,
    amounts: {
      low: BigInt(line.low),
      likely: BigInt(line.likely),
      p80: BigInt(line.p80),
      high: BigInt(line.high),
    },
    hours: line.hours ?? null,
    because: line.because,
  };
}

/** Amounts as an estimate to be drawn. */
export const estimateOf = (amounts: LineView['amounts']): Estimate => ({
  p10: amounts.low,
  p50: amounts.likely,
  p80: amounts.p80,
  p90: amounts.high,
});

/** What does not depend on how long the work takes. */
export function firmOf(lines: readonly LineView[]): bigint {
  return lines.reduce(
    (sum, { amounts }) => (amounts.low === amounts.high ? sum + amounts.likely : sum),
    0n,
  );
}

const wordsOfKind: Record<string, string> = {
  standard: 'standard time',
  'shop-median': 'this shop’s median',
  'own-times': 'its own past times',
  shop: 'this shop',
  'own-history': 'this task here',
  place: 'this place',
  mechanic: 'who does it',
  aircraft: 'this aircraft',
};

/** The chain from the standard to the hours quoted; links that change nothing are left out. */
export function chainOf(because: readonly Reason[]): ChainStep[] {
  const steps: ChainStep[] = [];
  let value = 0;
  for (const { kind, sentence, hours, factor } of because) {
    const words = wordsOfKind[kind];
    if (words === undefined) continue;
    if (typeof hours === 'number' && typeof factor !== 'number') {
      value = hours;
      steps.push({ words, value, note: sentence });
    } else if (typeof factor === 'number' && steps.length > 0) {
      value *= factor;
      if (Math.abs(factor - 1) >= 0.005) {
        steps.push({ words, operation: `×${factor.toFixed(2)}`, value, note: sentence });
      }
    }
  }
  return steps;
}
