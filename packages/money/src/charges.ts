import { formatAmount, type Minor, minor, nothing } from './amount.ts';
import type { Currency } from './currency.ts';
import { exact } from './exact.ts';
import { lineNet } from './line-net.ts';

/**
 * What something costs with a mark-up: outside work, or a part, as it is passed on.
 *
 * Formula: cost × (1 + percent ÷ 100), half a minor unit away from zero (common practice, no source).
 *
 * @param cost minor units, 0 or more
 * @param percent a plain decimal, 0 or more: "15" adds fifteen hundredths
 * @throws RangeError for a cost or a mark-up below 0
 * @example markedUp(minor(42050n), '15', 'USD') // → 48358n
 */
export function markedUp(cost: Minor, percent: string, currency: Currency): Minor {
  refuseBelowNothing(cost, percent);
  return minor(cost + shareOf(cost, percent, currency));
}

/**
 * Shop supplies: rags, safety wire, solvents, which nobody counts: a share of the labour, up to a most.
 *
 * Formula: min(labour × percent ÷ 100, atMost), half a minor unit away from zero. That supplies follow labour and have a
 * cap is common practice, no source.
 *
 * @param labour minor units, 0 or more
 * @param atMost minor units, 0 or more; left out: no cap
 * @throws RangeError for labour, a share or a cap below 0
 * @example suppliesFor({ labour: minor(124000n), percent: '3', atMost: minor(3000n) }, 'USD') // → 3000n
 */
export function suppliesFor(
  { labour, percent, atMost }: { labour: Minor; percent: string; atMost?: Minor | undefined },
  currency: Currency,
): Minor {
  refuseBelowNothing(labour, percent);
  if (atMost !== undefined && atMost < nothing) {
    throw new RangeError(`Cannot cap supplies at ${atMost} minor units: give 0 or more`);
  }
  const share = shareOf(labour, percent, currency);
  return atMost !== undefined && share > atMost ? atMost : share;
}

const shareOf = (amount: Minor, percent: string, currency: Currency): Minor =>
  lineNet(
    { quantity: percent, unitPrice: formatAmount(amount, currency), priceBaseQuantity: '100' },
    currency,
  );

function refuseBelowNothing(amount: Minor, percent: string): void {
  if (amount < nothing) {
    throw new RangeError(`Cannot charge for ${amount} minor units: give 0 or more`);
  }
  if (exact(percent, 'percent').lt(0)) {
    throw new RangeError(`Cannot charge ${percent} per cent: give 0 or more`);
  }
}
