import { Meter, type Tx } from '@fairlead/database';
import { builder } from '../builder.ts';
import { counted } from '../counted.ts';
import { keyOf } from '../ids.ts';
import { benchItemIds } from './bench-items.ts';
import './clock-mutations.ts';
import './diagnosis/diagnosis-mutations.ts';
import './diagnosis/finding-fields.ts';
import './clock-many-schema.ts';
import './finding-mutations.ts';
import './finding-types.ts';
import { ForgottenClockType } from './forgotten-schema.ts';
import './item-mutations.ts';
import './item-types.ts';
import './note-mutations.ts';
import './note-types.ts';
import './our-cost-schema.ts';
import './photo-mark-types.ts';
import './practice-hours.ts';
import { OrderState } from './order-types.ts';
import './stretch-ends.ts';
import { forgottenClocks } from './forgotten-clocks.ts';
import { ordersInStates } from './orders-in-states.ts';
import { receiveAircraft } from './receive-aircraft.ts';
import { maySupervise } from './supervision.ts';

const isSupervised = async (read: Tx, personId: string): Promise<boolean> =>
  (
    await read.person.findUniqueOrThrow({
      where: { id: personId },
      select: { apprentice: true },
    })
  ).apprentice;

const Bench = builder.objectRef<{ personId: string }>('Bench').implement({
  description: 'What a mechanic has before them.',
  fields: (t) => ({
    running: t.prismaField({
      type: 'Stretch',
      nullable: true,
      description: 'The stretch that runs for the person signed in; null: their clock is stopped.',
      resolve: (query, { personId }, _, { read }) =>
        read.stretch.findFirst({ ...query, where: { personId, endedAt: null } }),
    }),
    supervised: t.boolean({
      description:
        'Whether the person signed in works under supervision, and is asked under whose.',
      resolve: async ({ personId }, _, { read }) => isSupervised(read, personId),
    }),
    supervisors: t.prismaField({
      type: ['Person'],
      description:
        'Under whom the person signed in may work, and for the manager whoever may supervise; empty for others who work by themselves.',
      resolve: async (query, { personId }, _, { read, roles }) =>
        (await isSupervised(read, personId)) || (await roles()).includes('manager')
          ? read.person.findMany({
              ...query,
              where: { ...maySupervise, active: true },
              orderBy: { name: 'asc' },
            })
          : [],
    }),
    forgotten: t.field({
      type: [ForgottenClockType],
      description: 'Their own clocks that look forgotten and wait for an answer, the oldest first.',
      resolve: ({ personId }, _, { read, now }) => forgottenClocks(read, personId, now()),
    }),
    items: t.prismaField({
      type: ['WorkItem'],
      description:
        'The items of aircraft that are here and not yet inspected or put off, by order and place in it.',
      resolve: async (query, _, __, { read }) =>
        read.workItem.findMany({
          ...query,
          where: { id: { in: await benchItemIds(read) } },
          orderBy: [{ order: { number: 'asc' } }, { position: 'asc' }],
        }),
    }),
  }),
});

builder.queryFields((t) => ({
  orders: t.prismaConnection(
    {
      type: 'WorkOrder',
      cursor: 'id',
      args: {
        states: t.arg({ type: [OrderState], description: 'Only those in one of these states.' }),
      },
      totalCount: async (_, { states }, { read }) =>
        read.workOrder.count({ ...(states && { where: await ordersInStates(read, states) }) }),
      description: 'The orders of the shop, newest first.',
      resolve: async (query, _, { states }, { read }) =>
        read.workOrder.findMany({
          ...query,
          ...(states && { where: await ordersInStates(read, states) }),
          orderBy: [{ number: 'desc' }, { id: 'asc' }],
        }),
    },
    counted,
  ),
  bench: t.field({
    type: Bench,
    nullable: true,
    description: 'What the person signed in has before them; null where nobody is.',
    resolve: (_, __, { viewer }) => viewer,
  }),
}));

const ReadingInput = builder.inputType('ReadingInput', {
  description: 'A meter read.',
  fields: (t) => ({
    meter: t.field({ type: Meter, required: true, description: 'Which meter.' }),
    readingHundredths: t.int({
      required: true,
      description: 'What it shows, hundredths of an hour.',
    }),
  }),
});
const SquawkInput = builder.inputType('SquawkInput', {
  description: 'What the pilot or owner reports.',
  fields: (t) => ({
    words: t.string({
      required: true,
      description: 'In their own words, at most 4,000 characters.',
    }),
    reportedBy: t.string({ required: true, description: 'Who reports it.' }),
  }),
});
const ReceiveAircraftInput = builder.inputType('ReceiveAircraftInput', {
  description: 'An aircraft arrives.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'For which order.' }),
    readings: t.field({
      type: [ReadingInput],
      required: true,
      description: 'Its meters, each once.',
    }),
    squawks: t.field({
      type: [SquawkInput],
      required: true,
      description: 'What was reported, at most 50.',
    }),
    received: t.stringList({
      required: true,
      description: 'Keys, record books, equipment, fuel: what came with it, at most 100.',
    }),
    standId: t.id({ description: 'Where it stands.' }),
  }),
});

builder.mutationField('receiveAircraft', (t) =>
  t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description:
      'Takes an aircraft in: readings, squawks, what came with it, and where it stands. All of it or nothing.',
    args: {
      input: t.arg({ type: ReceiveAircraftInput, required: true, description: 'What arrived.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await receiveAircraft(context, {
        ...input,
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        standId: input.standId ? keyOf('Stand', input.standId, 'standId') : null,
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
