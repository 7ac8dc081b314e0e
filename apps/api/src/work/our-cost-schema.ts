import { OurCostKind, type Prisma } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addWorkAtOurCost } from './add-work-at-our-cost.ts';
import { ourCostOf } from './at-our-cost.ts';
import { ourCostHours } from './our-cost-hours.ts';
import { putAtOurCost } from './put-at-our-cost.ts';

builder.enumType(OurCostKind, {
  name: 'OurCostKind',
  description: 'Why work is nobody’s to pay but the shop’s.',
  values: {
    shop: { description: 'For the shop itself.' },
    training: { description: 'It teaches somebody.' },
    rework: { description: 'It puts right what the shop did before.' },
  },
});

builder.prismaNode('AtOurCost', {
  id: { field: 'id' },
  description:
    'That an item is at the shop’s own cost, or is billed again. Never changed: the last word counts.',
  fields: (t) => ({
    kind: t.expose('kind', {
      type: OurCostKind,
      nullable: true,
      description: 'Why; null: it is billed again.',
    }),
    putsRight: t.relation('putsRight', {
      nullable: true,
      description: 'Of rework: the work that it puts right.',
    }),
    item: t.relation('item', { description: 'Which work.' }),
    reason: t.exposeString('reason', { description: 'What was said to it.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who said so.' }),
  }),
});

const newest = { orderBy: [{ at: 'desc' }, { id: 'desc' }] } satisfies Prisma.AtOurCostFindManyArgs;

builder.prismaObjectFields('WorkItem', (t) => ({
  ourCost: t.field({
    type: OurCostKind,
    nullable: true,
    description: 'Why it is not billed; null: it is.',
    select: { atOurCost: newest },
    resolve: ourCostOf,
  }),
  ourCostWords: t.relation('atOurCost', {
    description: 'Who said that it is not billed, or billed again; the last word first.',
    query: newest,
  }),
  putRightBy: t.relation('putRightBy', {
    description: 'What was said of later work that puts it right, first to last.',
    query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
  }),
}));

builder.prismaObjectFields('WorkOrder', (t) => ({
  pastWork: t.prismaField({
    type: ['WorkItem'],
    description:
      'Work that was begun on its aircraft, newest first, at most 200: what rework may put right.',
    select: { aircraftId: true },
    resolve: (query, { aircraftId }, _, { read }) =>
      read.workItem.findMany({
        ...query,
        where: {
          order: { aircraftId },
          OR: [{ stretches: { some: {} } }, { events: { some: { kind: 'done' } } }],
        },
        orderBy: [{ openedAt: 'desc' }, { id: 'desc' }],
        take: 200,
      }),
  }),
}));

const OurCostHoursType = builder
  .objectRef<{ kind: OurCostKind; seconds: number; items: number }>('OurCostHours')
  .implement({
    description: 'Work of one kind at the shop’s own cost, in a time.',
    fields: (t) => ({
      kind: t.expose('kind', { type: OurCostKind, description: 'Why it is not billed.' }),
      seconds: t.exposeInt('seconds', { description: 'Clocked in that time, seconds.' }),
      items: t.exposeInt('items', { description: 'On so many items.' }),
    }),
  });

builder.queryFields((t) => ({
  ourCostHours: t.field({
    type: [OurCostHoursType],
    description:
      'What was clocked at the shop’s own cost between two days of the shop, by kind. For the manager.',
    args: {
      from: t.arg({ type: 'Date', required: true, description: 'First day.' }),
      until: t.arg({ type: 'Date', required: true, description: 'Last day.' }),
    },
    resolve: (_, days, context) => ourCostHours(context, days),
  }),
}));

const words = {
  kind: 'Why it is not billed.',
  putsRightId: 'Of rework, and of nothing else: the earlier work on this aircraft.',
  reason: 'Why, 3 to 500 characters.',
};
const PutAtOurCostInput = builder.inputType('PutAtOurCostInput', {
  description: 'Work that is at the shop’s own cost. One item, or an order.',
  fields: (t) => ({
    itemId: t.id({ description: 'The item.' }),
    orderId: t.id({ description: 'An order: every item that it has now.' }),
    kind: t.field({
      type: OurCostKind,
      description: `${words.kind} Left out: it is billed again.`,
    }),
    putsRightId: t.id({ description: words.putsRightId }),
    reason: t.string({ required: true, description: words.reason }),
  }),
});
const AddWorkAtOurCostInput = builder.inputType('AddWorkAtOurCostInput', {
  description: 'Work that nobody was offered and nobody pays for.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    kind: t.field({ type: OurCostKind, required: true, description: words.kind }),
    title: t.string({ required: true, description: 'What is done, 3 to 200 characters.' }),
    jasc: t.string({
      description: 'JASC code, four digits. Left out: of the task, or of what it puts right.',
    }),
    taskId: t.id({ description: 'The task as which its hours are learned from.' }),
    putsRightId: t.id({ description: words.putsRightId }),
    reason: t.string({ required: true, description: words.reason }),
  }),
});

builder.mutationFields((t) => ({
  putAtOurCost: t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description:
      'Says that work is at the shop’s own cost, or is billed again. For the front desk, inspectors and the manager.',
    args: {
      input: t.arg({ type: PutAtOurCostInput, required: true, description: 'Which, and why.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await putAtOurCost(context, {
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        orderId: input.orderId ? keyOf('WorkOrder', input.orderId, 'orderId') : null,
        kind: input.kind ?? null,
        putsRightId: input.putsRightId ? keyOf('WorkItem', input.putsRightId, 'putsRightId') : null,
        reason: input.reason,
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addWorkAtOurCost: t.prismaField({
    type: 'WorkItem',
    errors: {},
    description:
      'Opens work at the shop’s own cost on an order. For the front desk, inspectors and the manager.',
    args: {
      input: t.arg({ type: AddWorkAtOurCostInput, required: true, description: 'What, and why.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await addWorkAtOurCost(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        kind: input.kind,
        title: input.title,
        jasc: input.jasc ?? null,
        taskId: input.taskId ? keyOf('Task', input.taskId, 'taskId') : null,
        putsRightId: input.putsRightId ? keyOf('WorkItem', input.putsRightId, 'putsRightId') : null,
        reason: input.reason,
      });
      return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
