import { type Minor, minor } from '@fairlead/money';
import { amountWorked, byLine, type CostFacts, costSoFar, ofOwnerNow } from './cost-so-far.ts';
import type { PriceOfWork } from './price-of-work.ts';

const MINUTE_MS = 60_000;
/** A day at work; a page that has not asked again by then shows what it knew last. */
const AHEAD_MINUTES = 8 * 60;

/** From when on the work on an order has come to so much, net. */
export interface CostStep {
  at: Date;
  cost: Minor;
}

/**
 * What the work on an order comes to in the next eight hours if the clocks that run on it run on and nothing else
 * happens: each whole minute at which it changes. Empty where nothing runs that is billed by time, or no price is known.
 *
 * The same arithmetic as `costSoFar`: at each step it would answer that amount.
 */
export function costAhead(all: CostFacts, price: PriceOfWork, now: Date): CostStep[] {
  const facts = ofOwnerNow(all);
  const soFar = costSoFar(facts, price, now);
  if (soFar === null) return [];
  const running = byLine(facts.items).filter(
    (together) =>
      together[0]?.quoteLine?.pricing !== 'fixed' &&
      together.some(({ stretches }) => stretches.some(({ endedAt }) => endedAt === null)),
  );
  if (running.length === 0) return [];
  const worked = (at: Date) =>
    running.reduce((sum, together) => sum + (amountWorked(together, price, at) ?? 0n), 0n);
  const rest = soFar - worked(now);
  const steps: CostStep[] = [];
  let last: bigint = soFar;
  for (let minute = 1; minute <= AHEAD_MINUTES; minute += 1) {
    const at = new Date(+now + minute * MINUTE_MS);
    const cost = minor(rest + worked(at));
    if (cost !== last) steps.push({ at, cost });
    last = cost;
  }
  return steps;
}
