import type { Tx } from '@fairlead/database';
import { type KeptPromises, keptPromises } from '@fairlead/labour';
import { builder } from '../../builder.ts';
import { civilDay } from '../../civil-day.ts';

const DAY = 86_400_000;

/** Promises given when the aircraft arrived, against the day on which it was released. */
export async function promisesAgainstReleases(read: Tx): Promise<KeptPromises | null> {
  const { timeZone } = await read.shop.findFirstOrThrow({ select: { timeZone: true } });
  const orders = await read.workOrder.findMany({
    where: { events: { some: { kind: 'released' } }, promises: { some: { outcome: 'promised' } } },
    orderBy: { number: 'asc' },
    select: {
      events: { where: { kind: 'released' }, select: { at: true } },
      promises: { orderBy: { madeAt: 'asc' }, take: 1 },
      // Work that the owner agreed to after the promise was given: part of why it took longer.
      findings: { where: { corrections: { some: {} } }, select: { id: true } },
    },
  });
  return keptPromises(
    orders.flatMap(({ events: [released], promises: [first], findings }) => {
      if (!released || !first?.p50On || !first.p80On || first.outcome !== 'promised') return [];
      const day = (date: Date) => Math.round(date.getTime() / DAY);
      return [
        {
          p50: day(first.p50On),
          p80: day(first.p80On),
          released: day(civilDay(released.at, timeZone)),
          grew: findings.length > 0,
        },
      ];
    }),
  );
}

const KeptType = builder.objectRef<KeptPromises>('PromisesKept').implement({
  description:
    'What was promised when an aircraft arrived, against the day on which it was released.',
  fields: (t) => ({
    orders: t.exposeInt('orders', { description: 'Released orders with a promise.' }),
    byP50: t.exposeInt('byP50', { description: 'Released by the day that was as likely as not.' }),
    byP80: t.exposeInt('byP80', { description: 'Released by the day of four in five.' }),
    lateAndGrown: t.exposeInt('lateAndGrown', {
      description: 'Of those released later: orders to which findings were added on the way.',
    }),
    low: t.float({
      description:
        'Where the share by the P80 lies in the long run, 95 % Wilson interval: from, 0 to 1.',
      resolve: ({ interval }) => interval.low,
    }),
    high: t.float({
      description: 'The same: to, 0 to 1.',
      resolve: ({ interval }) => interval.high,
    }),
    sentence: t.exposeString('sentence', { description: 'The same in words.' }),
  }),
});

builder.queryFields((t) => ({
  promisesKept: t.field({
    type: KeptType,
    nullable: true,
    description:
      'Whether aircraft were ready when it was promised; null until one with a promise is released.',
    resolve: (_, __, { read }) => promisesAgainstReleases(read),
  }),
}));
