import type { Prisma } from '@fairlead/database';
import { type Minor, minor, type OverrunRule, withinAgreed } from '@fairlead/money';
import { ceilingOf } from '../overrun.ts';
import { type AgreedFacts, agreedOf, cutOf, inTurn } from './queries.ts';

/** What somebody wrote off of an order, and when. */
export const writeOffFacts = {
  select: { amountMinor: true, at: true },
} as const satisfies Prisma.WorkOrder$writeOffsArgs;

interface WrittenOff extends AgreedFacts {
  writeOffs: readonly { amountMinor: bigint; at: Date }[];
}

/** How far a cost goes past what may be worked and billed, whatever was written off. */
export const pastCeiling = (order: AgreedFacts, cost: Minor, overrun: OverrunRule): Minor =>
  withinAgreed({ billed: cost, ceiling: ceilingOf(agreedOf(order), overrun) }).beyond;

/**
 * How far what an order has come to goes past what may be billed, less what somebody wrote off: what is to be agreed, or to
 * be written off, before anybody can call it settled. What was written off before the aircraft was sold was of the seller's work.
 *
 * @param cost null where it has no price
 */
export function beyondAuthority(
  order: WrittenOff,
  cost: Minor | null,
  overrun: OverrunRule,
): Minor | null {
  if (cost === null) return null;
  const beyond = pastCeiling(order, cost, overrun);
  const here = inTurn({ after: cutOf(order), until: null });
  const off = order.writeOffs.filter(here).reduce((sum, { amountMinor }) => sum + amountMinor, 0n);
  return minor(beyond > off ? beyond - off : 0n);
}
