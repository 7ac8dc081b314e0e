import { packageWithFindings } from '@fairlead/labour';
import { type BilledTimeRule, billedHoursOf, lineNet, minor } from '@fairlead/money';
import { Refused } from '../errors.ts';
import type { Offered } from './offered.ts';
import type { PriceList } from './price-list.ts';
import { type Amounts, amountsOf, type Quantiles } from './revision-lines.ts';
import type { WorkToDraw } from './work-to-draw.ts';

/** One seed for every quote, so that the same shop, tasks and day always give the same figures. */
export const HOURS_SEED = 1;
const MOST_HOURS = 999_999;

/** All work that is offered, in its order. What is sold at a price of its own takes time and costs nothing by the hour. */
export function workToDraw(
  { flatTasks, tasks }: Offered,
  prices: PriceList,
  rule: BilledTimeRule,
): WorkToDraw {
  const billed = billedHoursOf(rule);
  const rateOf = (kind: string | null) =>
    Number(lineNet({ quantity: '1', unitPrice: prices.rateOf(kind).rate }, prices.currency));
  const underFlat = flatTasks.map(({ estimate }) => ({ estimate, rate: 0 }));
  const sold = tasks.map(({ estimate, workKind, sold: { pricing, price } }) =>
    pricing === 'fixed'
      ? { estimate, rate: 0 }
      : {
          ...{ estimate, billed, rate: rateOf(workKind) },
          ...(price !== null && { atMost: Number(price) }),
        },
  );
  return { items: [...underFlat, ...sold], billed, rateOf };
}

/**
 * Hours of all work together, and what that by time comes to: the drawn hours of each item are billed by the shop's rule as
 * the invoice bills them, at the item's rate and no further than its limit, which no quantile of a sum of hours says.
 *
 * @throws Refused where it could take longer than can be kept
 */
export function foretellWork(
  { flatTasks, tasks }: Offered,
  { items }: WorkToDraw,
): { hours: Quantiles; byTime: Amounts } {
  const widest = [...flatTasks, ...tasks].find(
    ({ estimate }) => !(Math.max(estimate.p90, estimate.mean) < MOST_HOURS),
  );
  const drawn = widest ? null : packageWithFindings(items, [], { seed: HOURS_SEED, rate: 0 });
  const hours = drawn?.hours.firm;
  if (!drawn || !hours || !(Math.max(hours.p90, hours.mean) < MOST_HOURS))
    throw new Refused(
      'BAD_INPUT',
      `${widest ? `"${widest.title}"` : 'The whole'} could take more than ${MOST_HOURS} hours: needed are tasks whose standard or clocked times say less.`,
    );
  const whole = (amount: number) => minor(BigInt(Math.round(amount)));
  return { hours, byTime: amountsOf(drawn.cost.firm, whole) };
}
