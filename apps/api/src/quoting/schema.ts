import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { estimateTask } from './estimate-task.ts';
import { EstimateType } from './estimate-types.ts';

builder.queryField('estimateTask', (t) =>
  t.field({
    type: EstimateType,
    errors: {},
    description: 'How long a task will take on an aircraft, and why.',
    args: {
      taskId: t.arg.id({ required: true, description: 'The task.' }),
      aircraftId: t.arg.id({ required: true, description: 'The aircraft that it is done on.' }),
      usePrior: t.arg.boolean({ required: true, defaultValue: true, description: 'False: only this task\'s own times count, as in a textbook.' }),
    },
    resolve: (_, { taskId, aircraftId, usePrior }, context) =>
      estimateTask(context, { taskId: keyOf('Task', taskId, 'taskId'), aircraftId: keyOf('Aircraft', aircraftId, 'aircraftId'), usePrior }),
  }),
);
