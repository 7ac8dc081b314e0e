import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { setTaskKind } from './set-task-kind.ts';
import { addWorkKind } from './work-kinds.ts';

builder.prismaNode('WorkKind', {
  id: { field: 'id' },
  description: 'A kind of work as the shop names it, such as engine or avionics.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Its name.' }),
    tasks: t.relationCount('tasks', { description: 'How many tasks are of this kind.' }),
  }),
});

builder.prismaObjectField('Task', 'workKind', (t) =>
  t.relation('workKind', {
    nullable: true,
    description: 'At whose rate an hour of it is sold; null: at the general one.',
  }),
);

builder.queryField('workKinds', (t) =>
  t.prismaField({
    type: ['WorkKind'],
    description: "The shop's kinds of work, by name.",
    resolve: (query, _, __, { read }) =>
      read.workKind.findMany({ ...query, orderBy: { name: 'asc' } }),
  }),
);

const AddWorkKindInput = builder.inputType('AddWorkKindInput', {
  description: 'A kind of work that the shop tells from others.',
  fields: (t) => ({
    name: t.string({ required: true, description: 'Its name, 2 to 40 characters.' }),
  }),
});
const SetTaskKindInput = builder.inputType('SetTaskKindInput', {
  description: 'Of which kind a task is.',
  fields: (t) => ({
    taskId: t.id({ required: true, description: 'The task.' }),
    workKindId: t.id({ description: 'The kind; left out: none, at the general rate.' }),
  }),
});

builder.mutationFields((t) => ({
  addWorkKind: t.prismaField({
    type: 'WorkKind',
    errors: {},
    description:
      'Names a kind of work; until it has a rate of its own the general one holds. For the manager.',
    args: { input: t.arg({ type: AddWorkKindInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addWorkKind(context, input);
      return context.read.workKind.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  setTaskKind: t.prismaField({
    type: 'Task',
    errors: {},
    description:
      'Says of which kind a task is, for quotes made from now on. For the front desk and the manager.',
    args: { input: t.arg({ type: SetTaskKindInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await setTaskKind(context, {
        taskId: keyOf('Task', input.taskId, 'taskId'),
        workKindId: input.workKindId ? keyOf('WorkKind', input.workKindId, 'workKindId') : null,
      });
      return context.read.task.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
