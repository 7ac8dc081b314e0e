import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { setOpening } from './set-opening.ts';

builder.prismaObjectField('Task', 'opening', (t) =>
  t.relation('opening', {
    nullable: true,
    description:
      'What has to be opened first and closed after: its time is no part of this task’s, and is quoted once.',
  }),
);

builder.mutationField('setTaskOpening', (t) =>
  t.prismaField({
    type: 'Task',
    errors: {},
    description: 'Says what has to be opened before a task. For the manager.',
    args: {
      taskId: t.arg.id({ required: true, description: 'The task.' }),
      openingId: t.arg.id({ description: 'The task that opens; left out: nothing is opened.' }),
    },
    resolve: async (query, _, { taskId, openingId }, context) => {
      const id = await setOpening(context, {
        taskId: keyOf('Task', taskId, 'taskId'),
        openingId: openingId ? keyOf('Task', openingId, 'openingId') : null,
      });
      return context.read.task.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
