import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { eventFields } from './event-fields.ts';
import { notTakenOver } from './hand-overs.ts';
import { leaveHandOver } from './leave-hand-over.ts';
import { takeOver } from './take-over.ts';

builder.prismaNode('HandOver', {
  id: { field: 'id' },
  description:
    'Where somebody stopped at an item, or what a shift leaves to the next on an aircraft. Never changed.',
  fields: (t) => ({
    order: t.relation('order', { description: 'On which order.' }),
    item: t.relation('item', { nullable: true, description: 'At which item; null: the aircraft.' }),
    done: t.exposeString('done', { description: 'What is done.' }),
    notDone: t.exposeString('notDone', {
      description: 'What is not: what the next one has to know.',
    }),
    loose: t.exposeString('loose', {
      description: 'Which fasteners are only finger tight, or loose otherwise.',
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who left it.' }),
    takenOver: t.relation('takenOver', {
      nullable: true,
      description: 'Who took it over; null: nobody yet.',
    }),
  }),
});
builder.prismaObject('TakeOver', {
  description: 'That somebody read what was left, and took it over.',
  fields: (t) => ({
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
  }),
});

builder.prismaObjectField('WorkItem', 'stoppedHere', (t) =>
  t.relation('handOvers', {
    description: 'Where somebody stopped and nobody has taken over yet, earliest first.',
    query: { where: notTakenOver, orderBy: [{ at: 'asc' }, { id: 'asc' }] },
  }),
);
builder.prismaObjectField('WorkOrder', 'handOvers', (t) =>
  t.relation('handOvers', {
    description: 'What was left to the next on the aircraft and at its items, latest first.',
    query: { orderBy: [{ at: 'desc' }, { id: 'desc' }] },
  }),
);

const LeaveHandOverInput = builder.inputType('LeaveHandOverInput', {
  description: 'Where somebody stopped.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'On which order.' }),
    itemId: t.id({ description: 'At which of its items; left out: a note for the aircraft.' }),
    done: t.string({ description: 'What is done, at most 2,000 characters.' }),
    notDone: t.string({ required: true, description: 'What is not, 3 to 2,000 characters.' }),
    loose: t.string({
      description: 'Which fasteners are only finger tight or loose, at most 500 characters.',
    }),
    ...eventFields(t),
  }),
});
const TakeOverInput = builder.inputType('TakeOverInput', {
  description: 'That somebody takes over what was left.',
  fields: (t) => ({
    handOverId: t.id({ required: true, description: 'What was left.' }),
    ...eventFields(t),
  }),
});

builder.mutationFields((t) => ({
  leaveHandOver: t.prismaField({
    type: 'HandOver',
    errors: {},
    description: 'Says where somebody stopped at an item, or what a shift leaves to the next.',
    args: { input: t.arg({ type: LeaveHandOverInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await leaveHandOver(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        done: input.done ?? '',
        notDone: input.notDone,
        loose: input.loose ?? '',
        at: input.at ?? null,
        clientEventId: input.clientEventId,
      });
      return context.read.handOver.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  takeOver: t.prismaField({
    type: 'HandOver',
    errors: {},
    description: 'Takes over what somebody left, once.',
    args: { input: t.arg({ type: TakeOverInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await takeOver(context, {
        handOverId: keyOf('HandOver', input.handOverId, 'handOverId'),
        at: input.at ?? null,
        clientEventId: input.clientEventId,
      });
      return context.read.handOver.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
