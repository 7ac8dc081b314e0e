import type { Pricing, Prisma } from '@fairlead/database';
import {
  type BilledTimeRule,
  billedHours,
  formatAmount,
  lineNet,
  type Minor,
  minor,
  secondsFrom,
} from '@fairlead/money';
import type { OfferedCharge } from './charges.ts';
import { coreTitle } from './core-title.ts';
import type { EstimatedTask } from './estimate-tasks.ts';
import type { LineData, Offered, OfferedPart } from './offered.ts';
import type { PriceList, Tax } from './price-list.ts';

export interface Quantiles {
  p10: number;
  p50: number;
  mean: number;
  p80: number;
  p90: number;
}

export type Amounts = ReturnType<typeof amountsOf>;

/** What does not depend on how long anything takes: the same amount four times. */
export const firm = (amount: Minor) => ({
  lowMinor: amount,
  likelyMinor: amount,
  p80Minor: amount,
  highMinor: amount,
});

export const amountsOf = (
  { p10, p50, p80, p90 }: Pick<Quantiles, 'p10' | 'p50' | 'p80' | 'p90'>,
  priced: (value: number) => Minor,
) => ({
  lowMinor: priced(p10),
  likelyMinor: priced(p50),
  p80Minor: priced(p80),
  highMinor: priced(p90),
});

export const hoursOf = ({ p10, p50, mean, p80, p90 }: Quantiles) => ({
  hoursP10: p10.toFixed(6),
  hoursP50: p50.toFixed(6),
  hoursMean: mean.toFixed(6),
  hoursP80: p80.toFixed(6),
  hoursP90: p90.toFixed(6),
});

export const taxedAs = ({ code, rate, exemptionId, reason }: Tax) => ({
  taxCode: code,
  taxRate: rate,
  exemptionId,
  taxReason: reason,
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

const labour = (prices: PriceList) => ({
  category: 'labour' as const,
  ...taxedAs(prices.taxOf('labour')),
  quantity: '1',
});

/** The line that carries a flat price, and those of its tasks at 0, whose hours are kept. */
export const flatLines = ({ flat, flatTasks }: Offered, prices: PriceList) =>
  flat === null
    ? []
    : [
        {
          ...labour(prices),
          pricing: 'fixed' as Pricing,
          title: flat.title,
          unitPrice: formatAmount(minor(flat.price), prices.currency),
          ...firm(minor(flat.price)),
        },
        ...flatTasks.map((task) => ({
          ...labour(prices),
          pricing: 'fixed' as Pricing,
          unitPrice: '0',
          ...firm(minor(0n)),
          ...ofTask(task),
        })),
      ];

export const taskLine = (
  task: Offered['tasks'][number],
  prices: PriceList,
  billing: BilledTimeRule,
) => ({
  ...labour(prices),
  ...soldAs(task, prices, billing),
  ...ofTask(task),
});

type SoldAs = Pick<LineData, 'unitPrice' | 'limitMinor' | 'pricedFrom' | 'workKind'> &
  Amounts & { pricing: Pricing };

/** How a task is sold, and at what. */
function soldAs(
  { sold: { pricing, price }, estimate, workKind }: Offered['tasks'][number],
  prices: PriceList,
  billing: BilledTimeRule,
): SoldAs {
  if (pricing === 'fixed') {
    const amount = minor(price ?? 0n);
    return { pricing, unitPrice: formatAmount(amount, prices.currency), ...firm(amount) };
  }
  const { rate, from, kind } = prices.rateOf(workKind);
  const byTime = {
    ...{ pricing, unitPrice: rate, pricedFrom: from, workKind: kind },
    ...amountsOf(estimate, (hours) =>
      lineNet(
        { quantity: billedHours(secondsFrom(hours), billing), unitPrice: rate },
        prices.currency,
      ),
    ),
  };
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

/** A part; and below it the charge for its core, where it has one. */
export function partLines(
  { id, title, category, priced, quantity, coreCharge }: OfferedPart,
  prices: PriceList,
) {
  const { unitPrice, from, markedUp } = priced;
  const of = { category, ...taxedAs(prices.taxOf(category)), quantity };
  const part = {
    ...{ ...of, pricing: 'time_and_materials' as Pricing, partId: id, title, unitPrice },
    pricedFrom: from,
    ...(markedUp && { unitCost: markedUp.unitCost, percent: markedUp.percent }),
    ...firm(lineNet({ quantity, unitPrice }, prices.currency)),
  };
  if (coreCharge === null) return [part];
  const each = formatAmount(minor(coreCharge), prices.currency);
  const core = {
    ...{ ...of, pricing: 'fixed' as Pricing, charge: 'core' as const, corePartId: id },
    title: coreTitle(title),
    unitPrice: each,
    ...firm(lineNet({ quantity, unitPrice: each }, prices.currency)),
  };
  return [part, core];
}

export const chargeLine = (
  { kind, title, category, price, cost, percent, cap, from }: OfferedCharge,
  prices: PriceList,
) => ({
  pricing: 'fixed' as Pricing,
  charge: kind,
  costMinor: cost,
  percent,
  capMinor: cap,
  pricedFrom: from,
  title,
  category,
  ...taxedAs(prices.taxOf(category)),
  quantity: '1',
  unitPrice: formatAmount(price, prices.currency),
  ...firm(price),
});
