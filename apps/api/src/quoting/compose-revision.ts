import type { Pricing, Prisma, TaxCategory } from '@fairlead/database';
import { packageOf, packageWithFindings } from '@fairlead/labour';
import { documentTotals, formatAmount, lineNet, type Minor, minor, sumOf } from '@fairlead/money';
import { Refused } from '../errors.ts';
import { type OfferedCharge, priceCharges, type WantedCharge } from './charges.ts';
import type { EstimatedTask } from './estimate-tasks.ts';
import { foretellFindings, type LikelyWork, pricedItems } from './likely-findings.ts';
import type { PriceList } from './price-list.ts';
import { sayWhole } from './say-decision.ts';
import type { Sold } from './sold.ts';

/** What is offered, in the order in which it is listed. */
export interface Offered {
  /** Sold at one price for all its tasks; null where there is none. */
  flat: { title: string; price: bigint } | null;
  /** Tasks under the flat price. Empty where there is none. */
  flatTasks: readonly EstimatedTask[];
  /** Other tasks, each with how it is sold. */
  tasks: readonly (EstimatedTask & { sold: Sold })[];
  parts: readonly OfferedPart[];
  charges: readonly WantedCharge[];
  /** What may be found: foretold, not offered. */
  likely: readonly LikelyWork[];
}

export interface OfferedPart {
  id: string;
  title: string;
  category: TaxCategory;
  unitPrice: string;
  quantity: string;
}

export type LineData = Omit<Prisma.QuoteLineUncheckedCreateInput, 'id' | 'shopId' | 'revisionId'>;
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

interface Quantiles {
  p10: number;
  p50: number;
  mean: number;
  p80: number;
  p90: number;
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
 * Amounts of a line by time are quantiles of its hours × the rate (P10, P50, P80, P90), at most the
 * price not to be exceeded where there is one; what is firm has the same amount four times. The amounts of the whole come from the simulated sum of the hours,
 * never from adding the lines' P90s. Tax is on the likely amount, category by category.
 */
export function composeRevision(offered: Offered, prices: PriceList): ComposedRevision {
  const labourTax = prices.taxOf('labour');
  const priced = (hours: number) =>
    lineNet({ quantity: hours.toFixed(6), unitPrice: prices.labourRate }, prices.currency);
  const total = sumOfHours([...offered.flatTasks, ...offered.tasks]);
  const openTasks = offered.tasks.filter(({ sold }) => sold.pricing !== 'fixed');
  const allOpen = offered.flatTasks.length + offered.tasks.length === openTasks.length;
  const labour = {
    category: 'labour' as const,
    taxCode: labourTax.code,
    taxRate: labourTax.rate,
    quantity: '1',
  };

  const flatLines = offered.flat
    ? [
        {
          ...labour,
          pricing: 'fixed' as Pricing,
          title: offered.flat.title,
          unitPrice: formatAmount(minor(offered.flat.price), prices.currency),
          ...firm(minor(offered.flat.price)),
        },
        ...offered.flatTasks.map((task) => ({
          ...labour,
          pricing: 'fixed' as Pricing,
          unitPrice: '0',
          ...firm(minor(0n)),
          ...ofTask(task),
        })),
      ]
    : [];
  const taskLines = offered.tasks.map((task) => ({
    ...labour,
    ...soldAs(task, prices, priced),
    ...ofTask(task),
  }));
  const partLines = offered.parts.map(({ id, title, category, unitPrice, quantity }) => {
    const tax = prices.taxOf(category);
    const net = lineNet({ quantity, unitPrice }, prices.currency);
    return {
      pricing: 'time_and_materials' as Pricing,
      partId: id,
      title,
      category,
      taxCode: tax.code,
      taxRate: tax.rate,
      quantity,
      unitPrice,
      ...firm(net),
    };
  });

  const rate = Number(lineNet({ quantity: '1', unitPrice: prices.labourRate }, prices.currency));
  const timeAmounts = openTasks.some(({ sold }) => sold.price !== null)
    ? underLimits(openTasks, rate)
    : amountsOf(allOpen ? total : sumOfHours(openTasks), priced);
  const firmWork = [...flatLines, ...taskLines.filter(({ pricing }) => pricing === 'fixed')];
  const likelyLabour = sumOf([
    timeAmounts.likelyMinor,
    ...firmWork.map(({ likelyMinor }) => likelyMinor),
  ]);
  const chargeLines = priceCharges(offered.charges, likelyLabour, prices).map((charge) =>
    chargeLine(charge, prices),
  );
  const firmLines = [...firmWork, ...partLines, ...chargeLines];
  const firmly = sumOf(firmLines.map(({ likelyMinor }) => likelyMinor));
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
    rate,
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
    lines: [...flatLines, ...taskLines, ...partLines, ...chargeLines].map((line, index) => ({
      ...line,
      position: index + 1,
    })),
  };
}

function chargeLine(
  { kind, title, category, price, cost, percent }: OfferedCharge,
  prices: PriceList,
) {
  const tax = prices.taxOf(category);
  return {
    pricing: 'fixed' as Pricing,
    charge: kind,
    costMinor: cost,
    percent,
    title,
    category,
    taxCode: tax.code,
    taxRate: tax.rate,
    quantity: '1',
    unitPrice: formatAmount(price, prices.currency),
    ...firm(price),
  };
}

type Amounts = ReturnType<typeof amountsOf>;

/** How a task is sold, and at what. */
function soldAs(
  { sold: { pricing, price }, estimate }: Offered['tasks'][number],
  { currency, labourRate }: PriceList,
  priced: (hours: number) => Minor,
): Pick<LineData, 'unitPrice' | 'limitMinor'> & Amounts & { pricing: Pricing } {
  if (pricing === 'fixed') {
    const amount = minor(price ?? 0n);
    return { pricing, unitPrice: formatAmount(amount, currency), ...firm(amount) };
  }
  const byTime = { pricing, unitPrice: labourRate, ...amountsOf(estimate, priced) };
  if (price === null) return byTime;
  const atMost = (amount: Minor) => (amount < price ? amount : minor(price));
  return {
    ...byTime,
    limitMinor: price,
    lowMinor: atMost(byTime.lowMinor),
    likelyMinor: atMost(byTime.likelyMinor),
    p80Minor: atMost(byTime.p80Minor),
    highMinor: atMost(byTime.highMinor),
  };
}

/** What all work by time comes to where some of it has a limit that the shop keeps: no quantile of a sum of hours says that. */
function underLimits(tasks: Offered['tasks'], rate: number): Amounts {
  const { cost } = packageWithFindings(pricedItems(tasks), [], { seed: HOURS_SEED, rate });
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

const firm = (amount: Minor) => ({
  lowMinor: amount,
  likelyMinor: amount,
  p80Minor: amount,
  highMinor: amount,
});

const amountsOf = ({ p10, p50, p80, p90 }: Quantiles, priced: (hours: number) => Minor) => ({
  lowMinor: priced(p10),
  likelyMinor: priced(p50),
  p80Minor: priced(p80),
  highMinor: priced(p90),
});

const hoursOf = ({ p10, p50, mean, p80, p90 }: Quantiles) => ({
  hoursP10: p10.toFixed(6),
  hoursP50: p50.toFixed(6),
  hoursMean: mean.toFixed(6),
  hoursP80: p80.toFixed(6),
  hoursP90: p90.toFixed(6),
});

const ofTask = ({ id, title, accessId, asked, estimate }: EstimatedTask) => ({
  taskId: id,
  accessId,
  title,
  ...hoursOf(estimate),
  jobs: estimate.jobs,
  because: structuredClone(estimate.because) as unknown as Prisma.InputJsonValue,
  modelVersion: estimate.modelVersion,
  asked: structuredClone(asked) as unknown as Prisma.InputJsonValue,
});
