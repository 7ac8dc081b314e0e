import { type Minor, minor } from './amount.ts';
import { withinAgreed } from './authority.ts';
import type { WorkedLine } from './worked-line.ts';

/** Worked, but not billed. */
export interface Unbilled {
  readonly lineId: string;
  readonly amount: Minor;
  /**
   * `line_ceiling` and `order_ceiling`: beyond authority, billed once the owner agrees or written off
   * by name. `not_to_exceed`: the price promised holds; the shop carries the rest.
   */
  readonly because: 'line_ceiling' | 'order_ceiling' | 'not_to_exceed';
}

/** What one line came to past its own ceiling: nothing, or one amount. */
export function pastOwnCeiling({ agreed, worked }: WorkedLine): Unbilled[] {
  if (agreed.ceiling === undefined) {
    return [];
  }
  const { beyond } = withinAgreed({ billed: worked, ceiling: agreed.ceiling });
  const because = agreed.pricing === 'not_to_exceed' ? 'not_to_exceed' : 'line_ceiling';
  return beyond > 0n ? [{ lineId: agreed.id, amount: beyond, because }] : [];
}

const GIVES_WAY_FIRST = ['time_and_materials', 'not_to_exceed', 'fixed'] as const;

/**
 * What all lines together come to past the ceiling of the whole order, given what their own ceilings
 * already hold back. It comes off lines priced by time first, the last one agreed first; off what stands
 * for cores last of all, since it is given back when they come and must not make room for something else.
 */
export function pastOrderCeiling(
  worked: readonly WorkedLine[],
  pastLine: readonly Unbilled[],
  ceiling: Minor | undefined,
): Unbilled[] {
  if (ceiling === undefined) {
    return [];
  }
  const held = new Map(pastLine.map(({ lineId, amount }) => [lineId, amount]));
  const stillBilled = (line: WorkedLine) => line.worked - (held.get(line.agreed.id) ?? 0n);
  const billed = minor(worked.reduce((sum, line) => sum + stillBilled(line), 0n));
  let excess: bigint = withinAgreed({ billed, ceiling }).beyond;
  const past: Unbilled[] = [];
  const [cores, others] = [true, false].map((core) =>
    worked.filter(({ agreed }) => (agreed.core ?? false) === core),
  ) as [WorkedLine[], WorkedLine[]];
  const inTurn = [
    ...GIVES_WAY_FIRST.flatMap((pricing) =>
      others.filter(({ agreed }) => agreed.pricing === pricing).reverse(),
    ),
    ...cores.reverse(),
  ];
  for (const line of inTurn) {
    const amount = excess < stillBilled(line) ? excess : stillBilled(line);
    if (amount > 0n) {
      past.push({ lineId: line.agreed.id, amount: minor(amount), because: 'order_ceiling' });
      excess -= amount;
    }
  }
  return past;
}
