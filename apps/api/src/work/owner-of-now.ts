import { Prisma } from '@fairlead/database';

/** When the aircraft of an order was sold while the order went on; the last time counts. */
export const soldFacts = {
  orderBy: { sale: { cutAt: 'desc' } },
  take: 1,
  select: { sale: { select: { cutAt: true } } },
} as const satisfies Prisma.WorkOrder$salesArgs;

export interface SoldFacts {
  sales?: readonly { sale: { cutAt: Date } }[];
}

/** From when on the work is of the owner of now; null: from the beginning. */
export const cutOf = ({ sales }: SoldFacts): Date | null => sales?.[0]?.sale.cutAt ?? null;

/** A part of the time of an order; null: without an end on that side. */
export interface Turn {
  after: Date | null;
  until: Date | null;
}

/** Whether something happened in a turn. What carries no time is of every turn. */
export const inTurn =
  ({ after, until }: Turn) =>
  ({ at }: { at?: Date }): boolean =>
    at === undefined || ((after === null || at > after) && (until === null || at <= until));

/** Stretches of the clock in a turn, cut off at its ends. */
export function stretchesInTurn<Stretch extends { startedAt: Date; endedAt: Date | null }>(
  stretches: readonly Stretch[],
  { after, until }: Turn,
): Stretch[] {
  return stretches.flatMap((stretch) => {
    const startedAt = after !== null && stretch.startedAt < after ? after : stretch.startedAt;
    const open = stretch.endedAt === null || (until !== null && stretch.endedAt > until);
    const endedAt = open ? until : stretch.endedAt;
    return endedAt !== null && endedAt <= startedAt ? [] : [{ ...stretch, startedAt, endedAt }];
  });
}

interface Moved {
  quantity: { toString(): string };
  at?: Date;
  lot: { id: string };
}

/**
 * What of each issue is still at the work, newest first: what comes back undoes what was issued last. So a part of the seller's that
 * comes back later is one less of theirs, and no credit of the buyer's.
 */
export function leftOfIssues<Movement extends Moved>(
  movements: readonly Movement[],
): { movement: Movement; left: Prisma.Decimal }[] {
  const issues: { movement: Movement; left: Prisma.Decimal }[] = [];
  const inOrder = movements.toSorted((one, other) => Number(one.at ?? 0) - Number(other.at ?? 0));
  for (const movement of inOrder) {
    let quantity = new Prisma.Decimal(movement.quantity.toString());
    if (quantity.isNegative()) issues.unshift({ movement, left: quantity.negated() });
    for (const issue of quantity.isNegative() ? [] : issues) {
      if (issue.movement.lot.id !== movement.lot.id) continue;
      const back = Prisma.Decimal.min(quantity, issue.left);
      issue.left = issue.left.minus(back);
      quantity = quantity.minus(back);
    }
  }
  return issues;
}

/** What was issued in a turn and has not come back, whenever that was. */
export const movementsInTurn = <Movement extends Moved>(
  movements: readonly Movement[],
  turn: Turn,
): Movement[] =>
  leftOfIssues(movements)
    .filter(({ movement, left }) => inTurn(turn)(movement) && left.greaterThan(0))
    .map(({ movement, left }) => ({ ...movement, quantity: left.negated() }))
    .reverse();
