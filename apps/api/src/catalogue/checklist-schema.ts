import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { setChecklist } from './set-checklist.ts';

builder.prismaObjectField('Task', 'checklist', (t) =>
  t.exposeStringList('checklist', {
    description:
      'What is looked at or done, line by line; an item takes it over when it is opened.',
  }),
);

const SetChecklistInput = builder.inputType('SetChecklistInput', {
  description: 'The checklist of a task.',
  fields: (t) => ({
    taskId: t.id({ required: true, description: 'Which task.' }),
    lines: t.stringList({
      required: true,
      description: 'Its lines, in order: at most 60 of 3 to 300 characters.',
    }),
    seen: t.stringList({ required: true, description: 'The lines as they were read.' }),
  }),
});

builder.mutationField('setChecklist', (t) =>
  t.prismaField({
    type: 'Task',
    errors: {},
    description: 'Writes the checklist of a task, for items opened from now on. For the manager.',
    args: { input: t.arg({ type: SetChecklistInput, required: true, description: 'All of it.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await setChecklist(context, {
        ...input,
        taskId: keyOf('Task', input.taskId, 'taskId'),
      });
      return context.read.task.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
