import { PromiseOutcome } from '@fairlead/database';
import { builder } from '../../builder.ts';
import type { MadePromise, PromiseBasis } from './make-promise.ts';
import { promiseForOrder } from './promise-for-order.ts';

builder.enumType(PromiseOutcome, {
  name: 'PromiseOutcome',
  description: 'Whether a day can be promised, or why not.',
  values: {
    promised: { description: 'There are days.' },
    not_known: { description: 'Nobody can say when something comes that the work waits for.' },
    nobody_in: { description: 'Nobody is in on any of the days that are looked at.' },
    too_far: { description: 'It may not be done within the days that are looked at.' },
  },
});

/** A promise, made now or kept. */
export type ShownPromise = MadePromise & { madeAt: Date };

const PromisePartsType = builder
  .objectRef<NonNullable<PromiseBasis['parts']>>('ReturnPromiseParts')
  .implement({
    description: 'What the days from the beginning to the P80 are made of; they add up to them.',
    fields: (t) => ({
      work: t.exposeInt('work', {
        description: 'Days of the work itself, with everybody in and no other aircraft.',
      }),
      away: t.exposeInt('away', {
        description: 'Days more because people are away or the shop is closed.',
      }),
      others: t.exposeInt('others', {
        description: 'Days more because other aircraft have work for the same people.',
      }),
      waits: t.exposeInt('waits', {
        description: 'Days more because something has to come first.',
      }),
    }),
  });

const PromiseWaitType = builder
  .objectRef<PromiseBasis['waits'][number]>('ReturnPromiseWait')
  .implement({
    description: 'Something that work waits for.',
    fields: (t) => ({
      words: t.exposeString('words', { description: 'What.' }),
      until: t.field({
        type: 'Date',
        nullable: true,
        description: 'The first day on which the work may be done; null: nobody knows.',
        resolve: ({ until }) => (until === null ? null : new Date(`${until}T00:00:00Z`)),
      }),
    }),
  });

export const PromiseType = builder.objectRef<ShownPromise>('ReturnPromise').implement({
  description:
    'When an aircraft is ready: hours worked off by who is in, beside other aircraft, not before what they wait for.',
  fields: (t) => ({
    madeAt: t.expose('madeAt', { type: 'DateTime', description: 'When it was said.' }),
    beginsOn: t.expose('beginsOn', {
      type: 'Date',
      description:
        'The day on which the work is taken to begin: today, or when the aircraft is planned to come.',
    }),
    outcome: t.expose('outcome', { type: PromiseOutcome, description: 'Whether there are days.' }),
    p50: t.field({
      type: 'Date',
      nullable: true,
      description: 'As likely as not ready by the end of this day.',
      resolve: ({ outcome, p50On }) => (outcome === 'promised' ? p50On : null),
    }),
    p80: t.field({
      type: 'Date',
      nullable: true,
      description: 'Ready by the end of this day in four cases of five.',
      resolve: ({ outcome, p80On }) => (outcome === 'promised' ? p80On : null),
    }),
    atBestP50: t.field({
      type: 'Date',
      nullable: true,
      description: 'While something is not known: as likely as not, if it came at once.',
      resolve: ({ outcome, p50On }) => (outcome === 'not_known' ? p50On : null),
    }),
    atBestP80: t.field({
      type: 'Date',
      nullable: true,
      description: 'While something is not known: in four cases of five, if it came at once.',
      resolve: ({ outcome, p80On }) => (outcome === 'not_known' ? p80On : null),
    }),
    sentence: t.exposeString('sentence', {
      description:
        'The days in plain words and the largest of the reasons; or why there is no day, and what is needed.',
    }),
    hoursP50: t.float({
      description: 'Hands-on hours left, as likely over as under.',
      resolve: ({ basis }) => basis.hours.p50,
    }),
    hoursP80: t.float({
      description: 'Hands-on hours left; eight in ten are under this.',
      resolve: ({ basis }) => basis.hours.p80,
    }),
    parts: t.field({
      type: PromisePartsType,
      nullable: true,
      description: 'What makes it so long; null where no day is promised.',
      resolve: ({ basis }) => basis.parts,
    }),
    waits: t.field({
      type: [PromiseWaitType],
      description: 'What the work waits for.',
      resolve: ({ basis }) => [...basis.waits],
    }),
  }),
});

builder.prismaObjectField('QuoteRevision', 'promise', (t) =>
  t.field({
    type: PromiseType,
    nullable: true,
    description:
      'When the aircraft would be ready, as it was said when this was drafted; null where it was not said.',
    select: { promise: true },
    resolve: ({ promise }) =>
      promise && { ...promise, basis: promise.basis as unknown as PromiseBasis },
  }),
);

builder.prismaObjectField('WorkOrder', 'promise', (t) =>
  t.field({
    type: PromiseType,
    nullable: true,
    description:
      'When the aircraft is ready, computed anew from what is left; null where the order is over.',
    select: { id: true },
    resolve: async ({ id }, _, { read, now }) => {
      const at = now();
      const promise = await promiseForOrder(read, id, at);
      return promise && { ...promise, madeAt: at };
    },
  }),
);

builder.prismaObjectField('WorkOrder', 'promisedAtArrival', (t) =>
  t.field({
    type: PromiseType,
    nullable: true,
    description: 'What was said when the aircraft arrived; null before.',
    select: { promises: { orderBy: { madeAt: 'asc' }, take: 1 } },
    resolve: ({ promises: [first] }) =>
      first ? { ...first, basis: first.basis as unknown as PromiseBasis } : null,
  }),
);
