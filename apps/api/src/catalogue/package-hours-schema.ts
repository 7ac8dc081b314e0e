import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { setPackageHours } from './set-package-hours.ts';

const TaskHoursInput = builder.inputType('TaskHoursInput', {
  description: 'How long a task should take.',
  fields: (t) => ({
    taskId: t.id({ required: true, description: 'Which task of the package.' }),
    version: t.string({ required: true, description: 'Of the task as it was read.' }),
    standardHours: t.field({
      type: 'Decimal',
      description: 'Labour-hours, above 0 to 999; left out: none is known.',
    }),
  }),
});

const SetPackageHoursInput = builder.inputType('SetPackageHoursInput', {
  description: 'How long tasks of a package should take.',
  fields: (t) => ({
    packageId: t.id({ required: true, description: 'Which package.' }),
    hours: t.field({
      type: [TaskHoursInput],
      required: true,
      description: 'Tasks of it, each once, at least one.',
    }),
  }),
});

builder.mutationField('setPackageHours', (t) =>
  t.prismaField({
    type: 'Package',
    errors: {},
    description:
      'Says how long tasks of a package should take, all that are given or none. What was quoted and opened before keeps its own hours. For the manager.',
    args: {
      input: t.arg({ type: SetPackageHoursInput, required: true, description: 'Which, how long.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const packageId = keyOf('Package', input.packageId, 'packageId');
      await setPackageHours(context, {
        packageId,
        hours: input.hours.map(({ taskId, version, standardHours }) => ({
          taskId: keyOf('Task', taskId, 'hours'),
          version,
          standardHours: standardHours ?? null,
        })),
      });
      return context.read.package.findUniqueOrThrow({ ...query, where: { id: packageId } });
    },
  }),
);
