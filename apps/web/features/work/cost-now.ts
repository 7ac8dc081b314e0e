/** What is known of an order's cost: amounts net, in minor units. */
export interface Costs {
  agreed: string;
  /** When it was asked; null: no rate for today. */
  costSoFar: string | null;
  /** What it becomes while its clocks run on, earliest first. Left out: it is shown as it was. */
  costAhead?: readonly { at: unknown; cost: string }[];
}

/**
 * What an order has come to at a moment after it was asked about, and how far that is beyond what the owner agreed to.
 *
 * @param now the shop's time, milliseconds since 1970
 * @returns minor units; null where the cost is not known
 * @example costNow({ agreed: '5000', costSoFar: '4000', costAhead: [{ at: '2031-05-05T08:06:00Z', cost: '5500' }] }, Date.parse('2031-05-05T08:07:00Z')) // → { cost: 5500n, agreed: 5000n, beyond: 500n }
 */
export function costNow(
  { agreed: upTo, costSoFar, costAhead = [] }: Costs,
  now: number,
): { cost: bigint; agreed: bigint; beyond: bigint } | null {
  if (costSoFar === null) return null;
  const reached = costAhead.findLast(({ at }) => Date.parse(String(at)) <= now);
  const [cost, agreed] = [BigInt(reached?.cost ?? costSoFar), BigInt(upTo)];
  return { cost, agreed, beyond: cost > agreed ? cost - agreed : 0n };
}
