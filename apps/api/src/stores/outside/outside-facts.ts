import type { OutsideEventKind, Prisma } from '@fairlead/database';

/** What the state of something that is with another shop follows from. */
export const outsideFacts = {
  events: {
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { kind: true, promisedOn: true, saidBy: true, tag: true, reason: true, at: true },
  },
} as const satisfies Prisma.OutsideJobSelect;

export interface OutsideFacts {
  events: readonly { kind: OutsideEventKind; promisedOn: Date | null; at: Date }[];
}

/** The last word on when it comes back; null: nobody has said, or nobody can. */
export const promisedOnOf = ({ events }: OutsideFacts): Date | null =>
  events.findLast(({ kind }) => kind === 'promised')?.promisedOn ?? null;

/** When it came back; null: it is out. */
export const returnedOf = <Event extends OutsideFacts['events'][number]>({
  events,
}: {
  events: readonly Event[];
}): Event | null => events.find(({ kind }) => kind === 'returned') ?? null;

/** Out past the day for which it was promised. */
export const isOverdue = (job: OutsideFacts, today: Date): boolean => {
  const promised = promisedOnOf(job);
  return returnedOf(job) === null && promised !== null && promised < today;
};
