import type { Prisma } from '@fairlead/database';

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
