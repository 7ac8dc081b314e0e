import { type Minor, minor, type OverrunRule, withinAgreed } from '@fairlead/money';
import { ceilingOf } from '../overrun.ts';
import { type AgreedFacts, agreedOf } from './queries.ts';

/**
 * How far what an order has come to goes past what may be billed, less what somebody wrote off: what is to be agreed, or to
 * be written off, before anybody can call it settled.
 *
 * @param cost null where it has no price
 */
export function beyondAuthority(
  order: AgreedFacts & { writeOffs: readonly { amountMinor: bigint }[] },
  cost: Minor | null,
  overrun: OverrunRule,
): Minor | null {
  if (cost === null) return null;
  const { beyond } = withinAgreed({ billed: cost, ceiling: ceilingOf(agreedOf(order), overrun) });
  const off = order.writeOffs.reduce((sum, { amountMinor }) => sum + amountMinor, 0n);
  return minor(beyond > off ? beyond - off : 0n);
}
