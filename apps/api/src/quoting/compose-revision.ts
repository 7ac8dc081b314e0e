import type { Prisma } from '@fairlead/database';
import { packageOf, packageWithFindings } from '@fairlead/labour';
import { documentTotals, formatAmount, lineNet, minor, sumOf } from '@fairlead/money';
import { Refused } from '../errors.ts';
import { priceCharges } from './charges.ts';
import type { EstimatedTask } from './estimate-tasks.ts';
import { foretellFindings, pricedItems } from './likely-findings.ts';
import type { LineData, Offered } from './offered.ts';
import type { PriceList } from './price-list.ts';
import {
  type Amounts,
  amountsOf,
  chargeLine,
  flatLines,
  hoursOf,
  partLines,
  pricedAt,
  type Quantiles,
  taskLine,
} from './revision-lines.ts';
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
>;

/** A revision before it is kept: its own figures, and its lines. */
export interface ComposedRevision {
  figures: FigureData;
  lines: LineData[];
}

/** One seed for every quote, so that the same shop, tasks and day always give the same figures. */
export const HOURS_SEED = 1;
const MOST_HOURS = 999_999;

/**
 * Prices what is offered.
 *
 * A flat price is billed once and its tasks are worked one by one, so it becomes one `fixed` line
 * that carries the price and names no task, followed by a `fixed` line of amount 0 for each task,
 * whose hours are kept. Every line with a task becomes a work item; the line without one does not.
 *
 * Amounts of a line by time are quantiles of its hours × the rate of its kind (P10, P50, P80, P90), at most the
 * price not to be exceeded where there is one; what is firm has the same amount four times. The amounts of the whole come from the simulated sum of the hours,
 * never from adding the lines' P90s. Tax is on the likely amount, category by category.
 */
export function composeRevision(offered: Offered, prices: PriceList): ComposedRevision {
  const total = sumOfHours([...offered.flatTasks, ...offered.tasks]);
  const openTasks = offered.tasks.filter(({ sold }) => sold.pricing !== 'fixed');
  const allOpen = offered.flatTasks.length + offered.tasks.length === openTasks.length;
  const flat = flatLines(offered, prices);
  const taskLines = offered.tasks.map((task) => taskLine(task, prices));
  const ofParts = offered.parts.flatMap((part) => partLines(part, prices));

  const general = hourMinor(prices, null);
  const timeAmounts = openTasks.some(
    ({ sold, workKind }) => sold.price !== null || hourMinor(prices, workKind) !== general,
  )
    ? oneByOne(openTasks, prices)
    : amountsOf(allOpen ? total : sumOfHours(openTasks), pricedAt(prices, null));
  const firmWork = [...flat, ...taskLines.filter(({ pricing }) => pricing === 'fixed')];
  const likelyLabour = sumOf([
    timeAmounts.likelyMinor,
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
        unitPrice: formatAmount(timeAmounts.likelyMinor, prices.currency),
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
    firmTasks: [
      ...offered.flatTasks,
      ...offered.tasks.filter(({ sold }) => sold.pricing === 'fixed'),
    ],
    openTasks,
    likely: offered.likely,
    rate: general,
    rateOf: (kind) => hourMinor(prices, kind),
    firm: firmly,
    high: timeAmounts.highMinor + firmly,
    seed: HOURS_SEED,
    say: (amount) => sayWhole(amount, prices.currency),
  });
  return {
    figures: {
      currency: prices.currency,
      lowMinor: timeAmounts.lowMinor + firmly,
      likelyMinor: timeAmounts.likelyMinor + firmly,
      p80Minor: timeAmounts.p80Minor + firmly,
      highMinor: timeAmounts.highMinor + firmly,
      taxMinor: totals.taxTotal,
      ...hoursOf(total),
      ...(withFindings && { withFindings: withFindings as unknown as Prisma.InputJsonValue }),
    },
    lines: [...flat, ...taskLines, ...ofParts, ...chargeLines].map((line, index) => ({
      ...line,
      position: index + 1,
    })),
  };
}

/** Price of an hour of a kind of work in minor units, as the simulation takes it. */
const hourMinor = (prices: PriceList, kind: string | null): number =>
  Number(lineNet({ quantity: '1', unitPrice: prices.rateOf(kind).rate }, prices.currency));

/**
 * What all work by time comes to where some of it has a limit that the shop keeps, or a rate of its own: no quantile of a
 * sum of hours says that.
 */
function oneByOne(tasks: Offered['tasks'], prices: PriceList): Amounts {
  const { cost } = packageWithFindings(
    pricedItems(tasks, (kind) => hourMinor(prices, kind)),
    [],
    { seed: HOURS_SEED, rate: hourMinor(prices, null) },
  );
  return amountsOf(cost.all, (amount) => minor(BigInt(Math.round(amount))));
}

/** The simulated sum, refused where it is past what can be kept. */
function sumOfHours(tasks: readonly EstimatedTask[]): Quantiles {
  const widest = tasks.find(
    ({ estimate }) => !(Math.max(estimate.p90, estimate.mean) < MOST_HOURS),
  );
  const sum = widest
    ? null
    : packageOf(
        tasks.map(({ estimate }) => estimate),
        { seed: HOURS_SEED },
      );
  if (!sum || !(Math.max(sum.p90, sum.mean) < MOST_HOURS))
    throw new Refused(
      'BAD_INPUT',
      `${widest ? `"${widest.title}"` : 'The whole'} could take more than ${MOST_HOURS} hours: needed are tasks whose standard or clocked times say less.`,
    );
  return sum;
}
