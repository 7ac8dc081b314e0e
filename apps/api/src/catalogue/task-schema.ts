import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { saveTask } from './save-task.ts';
import { taskFacts, taskVersion } from './task-version.ts';

builder.prismaObjectFields('Task', (t) => ({
  paragraphs: t.exposeStringList('paragraphs', {
    description: 'Lines of 14 CFR part 43 appendix D and 43.15 that it answers.',
  }),
  version: t.string({
    description:
      'Changes with every change of it. Given back with a change, so that two people do not undo each other unseen.',
    select: taskFacts,
    resolve: taskVersion,
  }),
}));

const SaveTaskInput = builder.inputType('SaveTaskInput', {
  description: 'A piece of work as it is to be described, all of it but its checklist.',
  fields: (t) => ({
    taskId: t.id({ description: 'Which; left out: a new one.' }),
    version: t.string({ description: 'Of the task as it was read; left out for a new one.' }),
    title: t.string({ required: true, description: 'What is done, 3 to 200 characters.' }),
    jasc: t.string({ required: true, description: 'FAA JASC code, four digits.' }),
    standardHours: t.field({
      type: 'Decimal',
      description: 'Labour-hours that are expected, above 0; left out: none is known.',
    }),
    critical: t.boolean({
      required: true,
      description: 'Whether it wants a second, independent inspection.',
    }),
    cautions: t.stringList({
      required: true,
      description: 'Hazards, shown before the clock starts: at most 12 of 3 to 300 characters.',
    }),
    reference: t.string({
      required: true,
      description: 'The data that it is done by, at most 300 characters.',
    }),
    paragraphs: t.stringList({
      required: true,
      description: 'Lines of the inspection rule that it answers.',
    }),
  }),
});

builder.mutationField('saveTask', (t) =>
  t.prismaField({
    type: 'Task',
    errors: {},
    description:
      'Describes a piece of work. What was quoted and opened before keeps its own words and hours. For the manager.',
    args: { input: t.arg({ type: SaveTaskInput, required: true, description: 'All of it.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await saveTask(context, {
        ...input,
        taskId: input.taskId ? keyOf('Task', input.taskId, 'taskId') : null,
        version: input.version ?? null,
        standardHours: input.standardHours ?? null,
      });
      return context.read.task.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
