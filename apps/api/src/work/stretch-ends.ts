import type { Tx } from '@fairlead/database';
import { builder } from '../builder.ts';

/** A stretch, as far as its two ends are asked for. */
interface Ends {
  readonly personId: string;
  readonly itemId: string;
}

/**
 * The clock event that an end of a stretch follows from: the one to correct where that time is wrong.
 * Null where none counts at that instant, as while the stretch runs.
 *
 * @param end `start`: what began it; `stop`: what ended it, a stop or the beginning of something else
 */
export async function eventAtEnd(
  read: Pick<Tx, 'clockEvent'>,
  { personId, itemId }: Ends,
  at: Date | null,
  end: 'start' | 'stop',
): Promise<string | null> {
  if (at === null) return null;
  const found = await read.clockEvent.findMany({
    where: { personId, at },
    orderBy: { id: 'asc' },
    select: { id: true, correctsId: true },
  });
  const events = await read.clockEvent.findMany({
    where: { id: { in: found.map(({ id, correctsId }) => correctsId ?? id) } },
    orderBy: { id: 'asc' },
    select: {
      id: true,
      kind: true,
      itemId: true,
      at: true,
      corrections: { orderBy: { id: 'desc' }, take: 1, select: { at: true } },
    },
  });
  const counted = events.filter(
    (event) => (event.corrections[0]?.at ?? event.at).getTime() === at.getTime(),
  );
  const fits = counted.filter((event) =>
    end === 'start'
      ? event.kind !== 'stop' && event.itemId === itemId
      : event.kind === 'stop' || event.itemId !== itemId,
  );
  // A stop says it more plainly than what was begun at the same moment.
  return (fits.find(({ kind }) => kind === 'stop') ?? fits[0])?.id ?? null;
}

builder.prismaObjectFields('Stretch', (t) => ({
  began: t.prismaField({
    type: 'ClockEvent',
    nullable: true,
    description: 'What began it: the event to correct where that time is wrong.',
    select: { personId: true, itemId: true, startedAt: true },
    resolve: async (query, stretch, _, { read }) => {
      const id = await eventAtEnd(read, stretch, stretch.startedAt, 'start');
      return id === null ? null : read.clockEvent.findUnique({ ...query, where: { id } });
    },
  }),
  ended: t.prismaField({
    type: 'ClockEvent',
    nullable: true,
    description: 'What ended it, a stop or the start of something else; null while it runs.',
    select: { personId: true, itemId: true, endedAt: true },
    resolve: async (query, stretch, _, { read }) => {
      const id = await eventAtEnd(read, stretch, stretch.endedAt, 'stop');
      return id === null ? null : read.clockEvent.findUnique({ ...query, where: { id } });
    },
  }),
}));
