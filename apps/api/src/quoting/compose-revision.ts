import type { Prisma } from '@fairlead/database';
import { type BilledTimeRule, documentTotals, formatAmount, sumOf } from '@fairlead/money';
import { priceCharges } from './charges.ts';
import { foretellWork, HOURS_SEED, workToDraw } from './foretell-work.ts';
import { foretellFindings } from './likely-findings.ts';
import type { LineData, Offered } from './offered.ts';
import type { PriceList } from './price-list.ts';
import { chargeLine, flatLines, hoursOf, partLines, taskLine } from './revision-lines.ts';
import { sayWhole } from './say-decision.ts';

export type FigureData = Pick<
  Prisma.QuoteRevisionUncheckedCreateInput,
  | 'currency'
  | 'lowMinor'
  | 'likelyMinor'
  | 'p80Minor'
  | 'highMinor'
  | 'taxMinor'
  | 'hoursP10'
  | 'hoursP50'
  | 'hoursMean'
  | 'hoursP80'
  | 'hoursP90'
  | 'withFindings'
  | 'billingStep'
  | 'billingRounding'
  | 'billingMinimum'
>;

/** A revision before it is kept: its own figures, and its lines. */
export interface ComposedRevision {
  figures: FigureData;
  lines: LineData[];
}

/**
 * Prices what is offered.
 *
 * A flat price is billed once and its tasks are worked one by one, so it becomes one `fixed` line
 * that carries the price and names no task, followed by a `fixed` line of amount 0 for each task,
 * whose hours are kept. Every line with a task becomes a work item; the line without one does not.
 *
 * Amounts of a line by time are quantiles of its hours (P10, P50, P80, P90), billed by the shop's rule × the rate of its kind, at
 * most the price not to be exceeded where there is one; what is firm has the same amount four times. The amounts of the whole
 * come from one simulation of all work, billed item by item, never from adding the lines' P90s. Tax is on the likely amount,
 * category by category.
 */
export function composeRevision(
  offered: Offered,
  prices: PriceList,
  billing: BilledTimeRule,
): ComposedRevision {
  const work = workToDraw(offered, prices, billing);
  const { hours, byTime } = foretellWork(offered, work);
  const flat = flatLines(offered, prices);
  const taskLines = offered.tasks.map((task) => taskLine(task, prices, billing));
  const ofParts = offered.parts.flatMap((part) => partLines(part, prices));

  const firmWork = [...flat, ...taskLines.filter(({ pricing }) => pricing === 'fixed')];
  const likelyLabour = sumOf([
    byTime.likelyMinor,
    ...firmWork.map(({ likelyMinor }) => likelyMinor),
  ]);
  const chargeLines = priceCharges(offered.charges, likelyLabour, prices).map((charge) =>
    chargeLine(charge, prices),
  );
  const firmLines = [...firmWork, ...ofParts, ...chargeLines];
  const firmly = sumOf(firmLines.map(({ likelyMinor }) => likelyMinor));
  const labourTax = prices.taxOf('labour');
  const totals = documentTotals({
    currency: prices.currency,
    lines: [
      {
        id: 'time',
        quantity: '1',
        unitPrice: formatAmount(byTime.likelyMinor, prices.currency),
        taxCategory: labourTax.code,
        taxRate: labourTax.rate,
      },
      ...firmLines.map((line, index) => ({
        id: `${index}`,
        quantity: '1',
        unitPrice: formatAmount(line.likelyMinor, prices.currency),
        taxCategory: line.taxCode,
        taxRate: line.taxRate,
      })),
    ],
  });
  const withFindings = foretellFindings({
    work,
    likely: offered.likely,
    firm: firmly,
    high: byTime.highMinor + firmly,
    seed: HOURS_SEED,
    say: (amount) => sayWhole(amount, prices.currency),
  });
  return {
    figures: {
      currency: prices.currency,
      lowMinor: byTime.lowMinor + firmly,
      likelyMinor: byTime.likelyMinor + firmly,
      p80Minor: byTime.p80Minor + firmly,
      highMinor: byTime.highMinor + firmly,
      taxMinor: totals.taxTotal,
      ...hoursOf(hours),
      billingStep: billing.step,
      billingRounding: billing.rounding,
      billingMinimum: billing.minimum ?? null,
      ...(withFindings && { withFindings: withFindings as unknown as Prisma.InputJsonValue }),
    },
    lines: [...flat, ...taskLines, ...ofParts, ...chargeLines].map((line, index) => ({
      ...line,
      position: index + 1,
    })),
  };
}
